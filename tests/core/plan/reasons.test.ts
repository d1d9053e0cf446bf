import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { variants } from '../../../src/core/domain/mode';
import type { Override } from '../../../src/core/domain/project';
import { defaultTolerance } from '../../../src/core/domain/project';
import { choicesAt, type Choice, type Rules } from '../../../src/core/plan/allowed-modes';
import type { Condition } from '../../../src/core/plan/conditions';
import { reasonFor } from '../../../src/core/plan/reasons';
import type { State } from '../../../src/core/plan/states';
import { fakeSlips } from './fake-slips';
import { markOf } from './invented';

const rules: Rules = {
  climbers: 3,
  pickets: 6,
  captureDevices: 6,
  lowStretch: false,
  tolerance: defaultTolerance,
  figures: defaultFigures,
};

const usual = {
  designSlopeDeg: 30,
  slopeSigmaDeg: 1,
  betaDeg: 20,
  runOut: 'deadly',
  snow: { hardness: 'P', wetness: 'D' },
  goingDown: false,
  onRock: false,
  marks: [],
  crossing: null,
  override: null,
  runOutOverridden: false,
  snowChanged: false,
} as unknown as Condition;

const shrund = markOf('bergschrund', [[7, 46]], { bridge: 'doubtful', seenOn: '2026-01-15' });
const gap = { ...usual, crossing: { mark: shrund, fromM: 10, toM: 14, offsetM: 0 } } as unknown as Condition;

/** Unheld shares of 100 in the order of the techniques. */
const unheld = (...pct: readonly number[]) => ({
  ...fakeSlips,
  unheldAt: ({ variant }: { readonly variant: (typeof variants)[number] }) => pct[variants.indexOf(variant)]!,
});

/** The reason for a state where slips come to that. */
function reason(
  at: Partial<Condition>,
  state: State,
  shares: readonly number[] = [0, 0, 0, 0, 0],
  team: Partial<Rules> = {},
): string {
  const condition = { ...usual, ...at };
  const asked = { ...rules, ...team };
  return reasonFor(condition, choicesAt(condition, asked, unheld(...shares)), state, asked);
}

describe('where no share decides', () => {
  const { rule } = defaultFigures;
  const unbelayed = ' The bergschrund marked here cannot be belayed either.';

  test('without ground data nothing is said of modes', () => {
    expect(reason({ designSlopeDeg: null }, 'no-data')).toBe(
      'The elevation data say nothing here: no mode can be given.',
    );
  });

  test('one person is no rope team', () => {
    expect(reason({}, 'none-holds', [], { climbers: 1 })).toBe(
      'A rope team is two people or more: nobody could hold a slip.',
    );
  });

  test.each([
    [{ designSlopeDeg: 61 }, `Steeper than ${rule.noneAboveDeg}°: outside what these modes can hold.`],
    [
      { snow: { hardness: 'I', wetness: 'D' } } as const,
      `Bare ice steeper than ${rule.iceRopedUpToDeg}°: snow pieces do not hold in it and nobody stops on it; ice screws are outside this model.`,
    ],
    [
      { onRock: true },
      'Rock marked here: slips and pieces on rock are outside this model. Decide on the spot, or set a mode.',
    ],
  ])('%j', (at, words) => {
    expect(reason(at, 'none-holds')).toBe(words);
    expect(reason({ ...gap, ...at }, 'none-holds')).toBe(words + unbelayed);
  });

  test('gentle ice is walked, and says what it holds', () => {
    const ice = { designSlopeDeg: 12, snow: { hardness: 'I', wetness: 'D' } } as const;
    expect(reason(ice, 'roped', [97, 0, 0, 0, 0])).toBe(
      `Bare ice up to ${rule.iceRopedUpToDeg}°: roped travel, but a slip on ice is not held (97 of 100 modelled slips).`,
    );
  });

  test('gentle snow is walked; what is kept there besides is said', () => {
    const floor = `Under ${rule.ropedAlwaysBelowDeg}° roped travel always stands (common practice); it leaves 31 of 100 modelled slips unheld`;
    expect(reason({ designSlopeDeg: 10 }, 'roped', [31, 0, 0, 0, 0])).toBe(`${floor}.`);
    expect(reason({ designSlopeDeg: 10 }, 'running', [31, 0, 0, 0, 0])).toBe(
      `${floor}. A running belay with one piece per interval is kept here: over the whole stretch changing would take no less time.`,
    );
  });
});

describe('a crossing', () => {
  const rest = ': one at a time, belayed from an anchor, whatever the slope.';

  test('says what it is, how its bridge looked and when', () => {
    expect(reason(gap, 'crossing')).toBe(`Bergschrund marked, bridge doubtful, seen 2026-01-15${rest}`);
    const bare = markOf('crevasse-crossing', [[7, 46]], { bridge: 'solid', seenOn: null });
    const crossing = { ...gap.crossing!, mark: bare };
    expect(reason({ crossing }, 'crossing')).toBe(`Crevasse crossing marked, bridge looks solid${rest}`);
    const unseen = { ...crossing, mark: { ...bare, bridge: null } };
    expect(reason({ crossing: unseen }, 'crossing')).toBe(`Crevasse crossing marked${rest}`);
  });

  test('says that there is no ground under it', () => {
    expect(reason({ ...gap, designSlopeDeg: null }, 'crossing')).toBe(
      `Bergschrund marked, bridge doubtful, seen 2026-01-15${rest} No ground data here.`,
    );
  });
});

describe('where shares decide', () => {
  test('the first that stands', () => {
    expect(reason({}, 'roped', [9, 0, 0, 0, 0])).toBe(
      'Roped travel leaves 9 of 100 modelled slips unheld; above a deadly run-out 15 may be.',
    );
    expect(reason({ runOut: 'injuring' }, 'roped', [9, 0, 0, 0, 0])).toContain(
      'above an injuring run-out 40 may be.',
    );
    expect(reason({ runOut: 'gentle' }, 'roped', [9, 0, 0, 0, 0])).toContain(
      'above a gentle run-out all may be.',
    );
  });

  test('those passed over, up to the one that stands', () => {
    expect(reason({}, 'running', [50, 9, 3, 2, 1])).toBe(
      'Roped travel leaves 50 of 100 modelled slips unheld; above a deadly run-out 15 may be. ' +
        'A running belay with one piece per interval leaves 9.',
    );
    expect(reason({}, 'running-double', [50, 40, 30, 9, 1])).toBe(
      'Roped travel leaves 50 of 100 modelled slips unheld; above a deadly run-out 15 may be. ' +
        'A running belay with one piece per interval leaves 40, a running belay with capture devices leaves 30 and ' +
        'a running belay with two pieces per interval leaves 9.',
    );
  });

  test('a share that passes the limit by less than its digits show does not read like the limit', () => {
    expect(reason({}, 'pitched', [50, 15.3, 15.3, 15.3, 0.2])).toContain(
      'A running belay with one piece per interval leaves just over 15',
    );
    expect(reason({}, 'running', [50, 14.8, 3, 3, 1])).toContain('leaves 15.');
    expect(reason({}, 'running', [50, 15, 3, 3, 1])).toContain('leaves 15.');
  });

  test('more than is asked for, kept because changing costs more', () => {
    expect(reason({}, 'pitched', [50, 9, 9, 9, 1])).toBe(
      'A running belay with one piece per interval would stand too (9 of 100 modelled slips unheld; above a deadly run-out 15 may be). ' +
        'A pitched belay is kept here: over the whole stretch changing would take no less time.',
    );
  });

  test('none, with what was not even tried', () => {
    expect(reason({}, 'none-holds', [50, 40, 40, 40, 40])).toBe(
      'Roped travel leaves 50 of 100 modelled slips unheld; above a deadly run-out 15 may be. ' +
        'A running belay with one piece per interval leaves 40, a running belay with capture devices leaves 40, ' +
        'a running belay with two pieces per interval leaves 40 and a pitched belay leaves 40. None holds well enough.',
    );
    const poor = { pickets: 2, captureDevices: 0 };
    const words = reason({}, 'none-holds', [50, 40, 40, 40, 40], poor);
    expect(words).toContain('None holds well enough; two pieces per interval');
    expect(words).not.toContain('capture device');
    expect(reason(gap, 'none-holds', [50, 40, 40, 40, 40])).toContain(
      'None holds well enough. The bergschrund marked here cannot be belayed either.',
    );
    expect(reason(gap, 'roped', [9, 0, 0, 0, 0])).not.toContain('cannot be belayed');
  });
});

describe('what was not tried', () => {
  const bar = (team: Partial<Rules>, at: Partial<Condition> = {}) =>
    reason(at, 'none-holds', [50, 40, 40, 40, 40], team);

  test.each([
    [{ pickets: 1 }, {}, 'pieces need a rack of two or more (it has 1)'],
    [
      { pickets: 2 },
      { runOut: 'injuring' },
      'two pieces per interval need a rack of three or more (it has 2)',
    ],
    [
      { pickets: 3 },
      {},
      'two pieces per interval above a deadly run-out, where two more make the stance, need a rack of four or more (it has 3)',
    ],
    [{}, { goingDown: true }, 'capture devices lock against a rope paid out going down'],
    [{ lowStretch: true }, {}, 'low-stretch cord bars lead falls onto pieces'],
    [
      {},
      { designSlopeDeg: 52 },
      `from ${defaultFigures.rule.pitchedOnlyFromDeg}° only a pitched belay is tried`,
    ],
  ] as const)('%j %j', (team, at, words) => {
    expect(bar(team, at as Partial<Condition>)).toContain(words);
  });

  test('several bars are listed once each', () => {
    const words = bar({ pickets: 1, lowStretch: true }, { runOut: 'deadly' });
    expect(words.split('pieces need a rack of two').length - 1).toBeLessThanOrEqual(1);
    const nothing: Choice = {
      rule: 'shares',
      allowed: [],
      unheldPct: {},
      tolerancePct: 15,
      barred: { running: 'two-pieces', 'running-double': 'three-pieces', pitched: 'low-stretch' },
    };
    expect(reasonFor(usual, nothing, 'none-holds', { ...rules, pickets: 1 })).toBe(
      'Nothing can be tried here: pieces need a rack of two or more (it has 1), ' +
        'two pieces per interval need a rack of three or more (it has 1) and low-stretch cord bars lead falls onto pieces.',
    );
    const twice: Choice = { ...nothing, barred: { running: 'two-pieces', 'running-double': 'two-pieces' } };
    expect(reasonFor(usual, twice, 'none-holds', { ...rules, pickets: 1 })).toBe(
      'Nothing can be tried here: pieces need a rack of two or more (it has 1).',
    );
  });
});

test('what the guide has set stands beside what the numbers ask for', () => {
  const override = { mode: 'pitched-belay' } as Override;
  expect(reason({ override }, 'pitched', [9, 0, 0, 0, 0])).toBe(
    'Set by the guide: pitched belay. The numbers ask for: roped travel. ' +
      'Roped travel leaves 9 of 100 modelled slips unheld; above a deadly run-out 15 may be.',
  );
  expect(reason({ ...gap, override }, 'pitched', [9, 0, 0, 0, 0])).toMatch(
    /^Set by the guide: pitched belay\. The numbers ask for: belayed crossing\. Bergschrund marked/,
  );
});
