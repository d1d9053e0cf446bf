/**
 * Names end in their unit; this rule makes that a type of a kind: what is in one unit is not assigned to, passed as, compared
 * with or added to what is in another. Products and quotients make new units and are left alone.
 */
const units = [
  'MS2',
  'MS',
  'KN',
  'Kg',
  'Km',
  'Deg',
  'Rad',
  'Min',
  'Ms',
  'Px',
  'Pct',
  'M',
  'S',
  'N',
  'J',
].join('|');
const rate = new RegExp(`(?:^p|P)er(?:${units})$`);
const ending = new RegExp(`(?<=[a-z0-9])(?:${units})$`);
/** `alongM` is in M, `stiffnessNPerM` in PerM. */
const unitOf = (name) =>
  name === 'NaN' ? null : ((rate.exec(name) ?? ending.exec(name))?.[0].replace(/^p/, 'P') ?? null);
const adding = new Set(['+', '-', '<', '<=', '>', '>=', '===', '!==', '+=', '-=', '=']);

/** The name under which a value is read: of a variable, a field or a call's function; null where there is none. */
function nameOf(node) {
  if (node === null || node === undefined) return null;
  switch (node.type) {
    case 'Identifier':
      return node.name;
    case 'PrivateIdentifier':
      return node.name;
    case 'MemberExpression':
      return node.computed ? null : nameOf(node.property);
    case 'CallExpression':
      return nameOf(node.callee);
    case 'ChainExpression':
    case 'TSNonNullExpression':
      return nameOf(node.expression);
    case 'UnaryExpression':
      return node.operator === '-' || node.operator === '+' ? nameOf(node.argument) : null;
    default:
      return null;
  }
}

const unitIn = (node) => {
  const name = nameOf(node);
  return name === null ? null : unitOf(name);
};

export const oneUnit = {
  meta: {
    type: 'problem',
    docs: { description: 'values of different units do not meet' },
    messages: { mixed: '"{{a}}" is in {{unitA}}, "{{b}}" in {{unitB}}.' },
    schema: [],
  },
  create(context) {
    const check = (at, a, b, nameA = nameOf(a), nameB = nameOf(b)) => {
      const [unitA, unitB] = [nameA && unitOf(nameA), nameB && unitOf(nameB)];
      if (unitA && unitB && unitA !== unitB)
        context.report({ node: at, messageId: 'mixed', data: { a: nameA, b: nameB, unitA, unitB } });
    };
    const services = context.sourceCode.parserServices;
    /** What a call's function calls its parameters, where types are known. */
    const parametersOf = (node) => {
      if (!services?.program || !services.esTreeNodeToTSNodeMap?.has(node)) return [];
      const checker = services.program.getTypeChecker();
      const signature = checker.getResolvedSignature(services.esTreeNodeToTSNodeMap.get(node));
      return signature?.getParameters().map(({ name }) => name) ?? [];
    };
    const checkCall = (node) => {
      if (!node.arguments.some((argument) => unitIn(argument) !== null)) return;
      const names = parametersOf(node);
      node.arguments.forEach((argument, i) =>
        check(argument, argument, null, nameOf(argument), names[i] ?? null),
      );
    };
    return {
      VariableDeclarator: (node) => check(node, node.id, node.init),
      AssignmentExpression: (node) => adding.has(node.operator) && check(node, node.left, node.right),
      AssignmentPattern: (node) => check(node, node.left, node.right),
      BinaryExpression: (node) => adding.has(node.operator) && check(node, node.left, node.right),
      Property: (node) => {
        if (node.computed || node.shorthand) return;
        const value = node.value.type === 'AssignmentPattern' ? node.value.left : node.value;
        check(node, node.key, value);
      },
      PropertyDefinition: (node) => !node.computed && check(node, node.key, node.value),
      CallExpression: checkCall,
      NewExpression: checkCall,
    };
  },
};
