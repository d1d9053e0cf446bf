import type { Figures } from '../assumptions/figures';
import { modeName, variants, type Variant } from '../domain/mode';
import { markName } from '../domain/mark';
import { capital, digits, shareText } from '../wording/numbers';
import type { Bar, Choice, Rules } from './allowed-modes';
import type { Condition } from './conditions';
import { byNumbers, isVariant, modeOf, type State } from './states';

/** Each way to go, as it reads within a sentence. */
export const wayName: Readonly<Record<Variant, string>> = {
  roped: 'roped travel',
  running: 'a running belay with one piece per interval',
  'running-capture': 'a running belay with capture devices',
  'running-double': 'a running belay with two pieces per interval',
  pitched: 'a pitched belay',
};

/** Why a state stands at a station: the rule that decided with its figures, in plain sentences. */
export function reasonFor(condition: Condition, choice: Choice, state: State, rules: Rules): string {
  if (condition.override !== null) return overrideReason(condition, choice, state, rules);
  if (state === 'crossing') return crossingReason(condition, choice);
  return numbersReason(condition, choice, state, rules);
}

function overrideReason(condition: Condition, choice: Choice, state: State, rules: Rules): string {
  const asked = byNumbers(condition, choice)[0];
  const numbers =
    asked === 'crossing' ? crossingReason(condition, choice) : numbersReason(condition, choice, asked, rules);
  return `Set by the guide: ${modeName[modeOf(state)]}. The numbers ask for: ${modeName[modeOf(asked)]}. ${numbers}`;
}

function crossingReason({ crossing }: Condition, choice: Choice): string {
  const { mark } = crossing!;
  const bridge =
    mark.bridge === null ? '' : `, bridge ${mark.bridge === 'solid' ? 'looks solid' : mark.bridge}`;
  const seen = mark.seenOn === null ? '' : `, seen ${mark.seenOn}`;
  const what = markName[mark.kind].replace(/^./, (letter) => letter.toUpperCase());
  const ground = choice.rule === 'no-data' ? ' No ground data here.' : '';
  return `${what} marked${bridge}${seen}: one at a time, belayed from an anchor, whatever the slope.${ground}`;
}

function numbersReason(condition: Condition, choice: Choice, state: State, rules: Rules): string {
  const { rule } = rules.figures;
  const crossed =
    condition.crossing === null
      ? ''
      : ` The ${markName[condition.crossing.mark.kind]} marked here cannot be belayed either.`;
  switch (choice.rule) {
    case 'no-data':
      return 'The elevation data say nothing here: no mode can be given.';
    case 'alone':
      return 'A rope team is two people or more: nobody could hold a slip.';
    case 'too-steep':
      return `Steeper than ${digits(rule.noneAboveDeg)}°: outside what these modes can hold.${crossed}`;
    case 'bare-ice':
      return `Bare ice steeper than ${digits(rule.iceRopedUpToDeg)}°: snow pieces do not hold in it and nobody stops on it; ice screws are outside this model.${crossed}`;
    case 'rock':
      return `Rock marked here: slips and pieces on rock are outside this model. Decide on the spot, or set a mode.${crossed}`;
    case 'easy-ice':
      return `Bare ice up to ${digits(rule.iceRopedUpToDeg)}°: roped travel, but a slip on ice is not held (${unheldOf(choice, 'roped')} of 100 modelled slips).`;
    case 'easy':
      return easyReason(choice, state, rule);
    case 'shares':
      return sharesReason(condition, choice, state, rules) + (state === 'none-holds' ? crossed : '');
  }
}

function easyReason(choice: Choice, state: State, rule: Figures['rule']): string {
  const floor = `Under ${digits(rule.ropedAlwaysBelowDeg)}° roped travel always stands (common practice); it leaves ${unheldOf(choice, 'roped')} of 100 modelled slips unheld`;
  if (state === 'roped') return `${floor}.`;
  return `${floor}. ${stayingOn(state)}`;
}

function sharesReason(condition: Condition, choice: Choice, state: State, rules: Rules): string {
  const may = mayText(condition, choice);
  const looked = variants.filter((variant) => choice.unheldPct[variant] !== undefined);
  const [first, ...others] = looked;
  if (first === undefined) return `Nothing can be tried here: ${barsText(choice, rules)}.`;
  const quickest = choice.allowed[0]!;
  if (state !== 'none-holds' && quickest !== state)
    return `${capital(wayName[quickest])} would stand too (${unheldOf(choice, quickest)} of 100 modelled slips unheld; ${may}). ${stayingOn(state)}`;

  const sentences = [
    `${capital(wayName[first])} leaves ${unheldOf(choice, first)} of 100 modelled slips unheld; ${may}.`,
  ];
  // The ways passed over, quickest first, up to the one that stands.
  const upTo = isVariant(state) ? others.slice(0, others.indexOf(state) + 1) : others;
  if (upTo.length > 0)
    sentences.push(
      `${capital(listed(upTo.map((variant) => `${wayName[variant]} leaves ${unheldOf(choice, variant)}`)))}.`,
    );
  if (state === 'none-holds') {
    const bars = barsText(choice, rules);
    sentences.push(bars === '' ? 'None holds well enough.' : `None holds well enough; ${bars}.`);
  }
  return sentences.join(' ');
}

/** A state more protective than asked, kept because changing over would cost more. */
function stayingOn(state: State): string {
  return `${capital(wayName[state as Variant])} is kept here: over the whole stretch changing would take no less time.`;
}

function mayText({ runOut }: Condition, { tolerancePct }: Choice): string {
  const may = tolerancePct! >= 100 ? 'all' : digits(tolerancePct!);
  return `above ${runOut === 'injuring' ? 'an' : 'a'} ${runOut} run-out ${may} may be`;
}

/** Never in the same words as the limit that it passes: 15.3 above 15 is just over it. */
function unheldOf({ unheldPct, tolerancePct }: Choice, variant: Variant): string {
  const share = unheldPct[variant] ?? null;
  const text = shareText(share);
  const passes = share !== null && tolerancePct !== null && share > tolerancePct;
  return passes && text === digits(tolerancePct) ? `just over ${text}` : text;
}

const barText: Readonly<Record<Bar, (rules: Rules) => string>> = {
  'two-pieces': ({ pickets }) => `pieces need a rack of two or more (it has ${pickets})`,
  'three-pieces': ({ pickets }) => `two pieces per interval need a rack of three or more (it has ${pickets})`,
  'four-pieces': ({ pickets }) =>
    `two pieces per interval above a deadly run-out, where two more make the stance, need a rack of four or more (it has ${pickets})`,
  'no-device': () => 'no capture device is on the rack',
  'device-going-down': () => 'capture devices lock against a rope paid out going down',
  'low-stretch': () => 'low-stretch cord bars lead falls onto pieces',
  'pitched-only': ({ figures }) =>
    `from ${digits(figures.rule.pitchedOnlyFromDeg)}° only a pitched belay is tried`,
};

/** What was not tried, each bar once. Capture devices that nobody carries are no news. */
function barsText({ barred }: Choice, rules: Rules): string {
  const bars = new Set(Object.values(barred).filter((bar) => bar !== 'no-device'));
  return listed([...bars].map((bar) => barText[bar](rules)));
}

function listed(parts: readonly string[]): string {
  if (parts.length < 2) return parts[0] ?? '';
  return `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)!}`;
}
