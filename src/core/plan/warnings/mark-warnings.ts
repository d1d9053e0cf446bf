import { markName, type MarkKind } from '../../domain/mark';
import type { Warning } from '../../domain/segment';
import { bestPlacement, isVeryWet } from '../../assumptions/figures';
import { capital, digits } from '../../wording/numbers';
import { crossedKinds, type LineMark } from '../line-marks';
import { stretchesWhere, warn, type Planned } from './warn';

/** What lies on the line and asks for care that no figure gives. */
export function markWarnings(planned: Planned): Warning[] {
  return [
    ...planned.decided.line.lineMarks.flatMap((lineMark) => [...crossing(lineMark), ...besides(lineMark)]),
    ...weakAnchors(planned),
    ...bareIce(planned),
  ];
}

function crossing({ mark, fromM, toM }: LineMark): Warning[] {
  if (!crossedKinds.has(mark.kind)) return [];
  const doubt = mark.bridge === 'poor' || mark.bridge === 'doubtful' ? `, bridge ${mark.bridge}` : '';
  const text = `${capital(markName[mark.kind])}${doubt}: whether a bridge holds, only a person on the spot can tell.`;
  return [warn('crossing', doubt === '' ? 2 : 3, text, { fromM, toM })];
}

const beside: Readonly<Partial<Record<MarkKind, string>>> = {
  cornice:
    'Cornice: keep well back from its edge; nobody stands here. That it breaks is not in these figures.',
  cliff: 'Cliff at the line.',
  serac: 'Serac at the line: ice fall is not in these figures.',
  water: 'Water at the line.',
  rock: 'Rock: slips and pieces on rock are outside this model.',
};

function besides({ mark, fromM, toM }: LineMark): Warning[] {
  const text = beside[mark.kind];
  return text === undefined ? [] : [warn(mark.kind, 2, text, { fromM, toM })];
}

/** An anchor for a crossing, in snow that holds little. */
function weakAnchors({ decided, figures }: Planned): Warning[] {
  const { piece } = figures;
  const anchorKN = (i: number): number => {
    const { snow } = decided.conditions[i]!;
    const oneKN = Math.min(figures.snow[snow.hardness].pieceKN, piece.hardwareKN);
    return Math.min(
      piece.anchorMaxKN,
      piece.anchorFactor * oneKN * (isVeryWet(snow.wetness) ? piece.wetFactor : 1),
    );
  };
  return stretchesWhere(decided, (i) => decided.states[i] === 'crossing' && anchorKN(i) < weakAnchorKN).map(
    (stretch) => {
      const at = decided.edgesM.findIndex((edgeM) => edgeM >= stretch.fromM);
      const onIce = bestPlacement[decided.conditions[at]!.snow.hardness] === 'none';
      const text = onIce
        ? 'Crossing on bare ice: snow pieces make no anchor; ice screws are outside this model.'
        : `Crossing in soft snow: an anchor of two pieces is put at ${digits(anchorKN(at), 1)} kN (median). Dig deep, or wait for the freeze.`;
      return warn('weak-anchor', 3, text, stretch);
    },
  );
}

/** Least median strength asked of a crossing's anchor (default of the trade, judgement). */
const weakAnchorKN = 4;

function bareIce({ decided }: Planned): Warning[] {
  return stretchesWhere(decided, (i) => decided.conditions[i]?.snow.hardness === 'I').map((stretch) =>
    warn(
      'ice',
      3,
      'Bare ice: a slip is not held by snow pieces or by people; ice screws are outside this model.',
      stretch,
    ),
  );
}
