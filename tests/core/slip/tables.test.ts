import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { variants } from '../../../src/core/domain/mode';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { simulateShares } from '../../../src/core/slip/shares';
import { buildSheet } from '../../../src/core/slip/slip-sheet';
import { leadAboveStance } from '../../../src/core/slip/lead-above-stance';
import { sharesRange } from '../../../src/core/slip/shares-range';
import { buildTables, mergeTables, sharesAt, unheldAt, type SlipTables } from '../../../src/core/slip/tables';
import { anyParty, anySnow, dry, teamOf } from './teams';

/** Places at which each team is tried, and how many teams. */
const placesEach = cases(50);
const qualities = [
  ['coarse', cases(20)],
  ['final', cases(6)],
] as const;

const place = fc.record({
  slopeDeg: between(0, 60),
  betaDeg: between(0, 180),
  slopeSigmaDeg: between(0, 5),
  goingDown: fc.boolean(),
});

describe.each(qualities)('%s tables', (quality, teams) => {
  test('what is looked up is as near to a simulation as the tables say', () => {
    let tried = 0;
    fc.assert(
      fc.property(
        anyParty,
        anySnow,
        fc.constantFrom(...variants),
        fc.boolean(),
        fc.array(place, { minLength: placesEach, maxLength: placesEach }),
        (party, snow, variant, turnsRoundGoingDown, asked) => {
          const options = { quality, turnsRoundGoingDown, variants: [variant] };
          const tables = buildTables(party, defaultFigures, [snow], options);
          for (const at of asked) {
            const asks = { ...at, snow, variant };
            const turned = at.goingDown && turnsRoundGoingDown;
            const climbers = turned ? party.climbers.toReversed() : party.climbers;
            const simulated = simulateShares({
              ...asks,
              party: { ...party, climbers },
              slipsPerClimber: 1024,
            }).unheld;
            expect(Math.abs(unheldAt(tables, asks) - simulated)).toBeLessThanOrEqual(tables.errorPct);
            tried++;
          }
        },
      ),
      { numRuns: teams },
    );
    expect(tried).toBe(placesEach * teams);
  }, 120_000);
});

test.each(['coarse', 'final'] as const)(
  '%s tables: on steep snow a pitch across the fall line is told apart from one nearly so',
  (quality) => {
    const [light, heavy] = teamOf('unreliable', 'solid').climbers;
    const climbers = [
      { ...light!, massKg: 50 },
      { ...heavy!, massKg: 113 },
    ];
    const rope = { ...defaultParty.rope, lengthM: 42, intervalM: 4, lowStretch: true };
    const party = { ...defaultParty, climbers, rope };
    const asked = { snow: { hardness: 'K', wetness: 'S' }, variant: 'pitched', slopeDeg: 60 } as const;
    const tables = buildTables(party, defaultFigures, [asked.snow], { quality, variants: ['pitched'] });
    for (const betaDeg of [70, 75, 80, 85, 87, 90]) {
      const at = { ...asked, betaDeg, goingDown: false };
      const { unheld } = simulateShares({ ...at, party, slipsPerClimber: 4096 });
      expect(Math.abs(unheldAt(tables, at) - unheld)).toBeLessThanOrEqual(tables.errorPct);
    }
  },
);

const snows = [dry('P'), dry('K')];
const build = (options: Partial<Parameters<typeof buildTables>[3]> = {}): SlipTables =>
  buildTables(defaultParty, defaultFigures, snows, { quality: 'coarse', ...options });

const at = { snow: dry('P'), slopeDeg: 30, betaDeg: 10, goingDown: false } as const;

test('tables built in parts are the tables built at once', () => {
  const parts = [0, 1, 2].map((index) => build({ part: { index, of: 3 } }));
  const merged = mergeTables([parts[0]!, parts[1]!, parts[2]!]);
  const whole = build();
  for (const variant of variants) {
    for (const snow of snows) {
      expect(unheldAt(merged, { ...at, snow, variant })).toBe(unheldAt(whole, { ...at, snow, variant }));
    }
  }
  expect(merged.sheets.length).toBe(whole.sheets.length);
});

test('tables survive being sent to another thread', () => {
  const tables = build();
  expect(structuredClone(tables)).toEqual(tables);
});

test('a snow or a variant that was not asked for is refused, not guessed', () => {
  const tables = build({ variants: ['roped'] });
  expect(() => unheldAt(tables, { ...at, variant: 'running' })).toThrow(RangeError);
  expect(() => unheldAt(tables, { ...at, variant: 'roped', snow: dry('F') })).toThrow(RangeError);
  expect(tables.sheets.map(({ variant }) => variant)).toEqual(['roped', 'roped']);
});

test('wetness counts from very wet on', () => {
  const tables = buildTables(defaultParty, defaultFigures, [dry('P'), { hardness: 'P', wetness: 'V' }], {
    quality: 'coarse',
  });
  const unheld = (wetness: 'D' | 'W' | 'V' | 'S') =>
    unheldAt(tables, { ...at, variant: 'running', snow: { hardness: 'P', wetness } });
  expect(unheld('W')).toBe(unheld('D'));
  expect(unheld('S')).toBe(unheld('V'));
  expect(unheld('V')).toBeGreaterThan(unheld('D'));
});

test('a team that turns round stands by height as on the way up; without devices', () => {
  const party = { ...teamOf('expert', 'solid', 'unreliable'), rack: { pickets: 3, captureDevices: 5 } };
  const turned = buildTables(party, defaultFigures, snows, { quality: 'coarse' });
  const kept = buildTables(party, defaultFigures, snows, { quality: 'coarse', turnsRoundGoingDown: false });
  const down = { ...at, goingDown: true } as const;
  expect(unheldAt(turned, { ...down, variant: 'roped' })).toBe(unheldAt(turned, { ...at, variant: 'roped' }));
  expect(unheldAt(kept, { ...down, variant: 'roped' })).not.toBe(unheldAt(kept, { ...at, variant: 'roped' }));
  for (const tables of [turned, kept]) {
    expect(unheldAt(tables, { ...down, variant: 'running-capture' })).toBe(
      unheldAt(tables, { ...down, variant: 'running' }),
    );
    expect(unheldAt(tables, { ...at, variant: 'running-capture' })).toBeLessThan(
      unheldAt(tables, { ...at, variant: 'running' }),
    );
  }
});

test('tables for devices alone can be asked on the way down, where devices are not used', () => {
  const party = { ...teamOf('expert', 'solid', 'unreliable'), rack: { pickets: 3, captureDevices: 5 } };
  const tables = buildTables(party, defaultFigures, [dry('P')], {
    quality: 'coarse',
    variants: ['running-capture'],
  });
  const unheld = (goingDown: boolean) => unheldAt(tables, { ...at, variant: 'running-capture', goingDown });
  expect(unheld(true)).toBeGreaterThan(unheld(false));
});

test('without a device to spare a piece is just a piece', () => {
  const party = { ...defaultParty, rack: { pickets: 3, captureDevices: 1 } };
  const tables = buildTables(party, defaultFigures, [dry('P')], { quality: 'coarse' });
  expect(unheldAt(tables, { ...at, variant: 'running-capture' })).toBe(
    unheldAt(tables, { ...at, variant: 'running' }),
  );
});

test('shares on the way down are listed in the party’s own order', () => {
  const party = teamOf('expert', 'solid', 'unreliable');
  const turned = buildTables(party, defaultFigures, [dry('P')], { quality: 'coarse', variants: ['roped'] });
  const up = sharesAt(turned, { ...at, variant: 'roped' });
  const down = sharesAt(turned, { ...at, variant: 'roped', goingDown: true });
  expect(down).toEqual(up);
});

test('shares at a place are those of a simulation there, of as many slips as are asked for', () => {
  const tables = build({ variants: ['roped'] });
  const place = { ...at, variant: 'roped' } as const;
  for (const slipsPerClimber of [64, 1024]) {
    const simulated = simulateShares({ ...place, party: defaultParty, slipsPerClimber });
    expect(sharesAt(tables, place, slipsPerClimber)).toMatchObject(simulated);
  }
});

test('shares come with the range that poor and good friction and strength give', () => {
  const tables = build();
  for (const variant of variants) {
    const { unheld, unheldRange } = sharesAt(tables, { ...at, variant });
    expect(unheldRange!.lowPct).toBeLessThanOrEqual(unheld);
    expect(unheldRange!.highPct).toBeGreaterThanOrEqual(unheld);
    if (variant === 'running') expect(unheldRange!.highPct - unheldRange!.lowPct).toBeGreaterThan(20);
  }
});

test('an uncertain slope counts by its spread', () => {
  const tables = build({ quality: 'final', variants: ['roped'] });
  for (const slopeSigmaDeg of [1.5, 3, 5]) {
    const asked = { ...at, slopeDeg: 24, variant: 'roped', slopeSigmaDeg } as const;
    const { unheld } = simulateShares({ ...asked, party: defaultParty });
    expect(Math.abs(unheldAt(tables, asked) - unheld)).toBeLessThan(tables.errorPct);
  }
  const roped = (slopeSigmaDeg: number) =>
    unheldAt(tables, { ...at, slopeDeg: 22, variant: 'roped', slopeSigmaDeg });
  expect(roped(5)).toBeGreaterThan(roped(1.5) + 3);
  expect(roped(0)).toBe(roped(1.5));
});

test.each([
  ['coarse', 3, [0, 20, 40, 60, 60, 75, 85, 90]],
  ['final', 1.5, [0, 10, 20, 30, 40, 50, 60, 60, 70, 80, 85, 90]],
] as const)(
  '%s tables: slopes every %s degrees to 75, angles with 60 degrees from either side',
  (quality, step, betas) => {
    const { slopesDeg, betasDeg } = build({ quality, variants: ['roped'] });
    expect([...slopesDeg]).toEqual(Array.from({ length: 75 / step + 1 }, (_, i) => i * step));
    expect([...betasDeg].map((beta) => Math.round(beta))).toEqual(betas);
    const justBelow = betas.indexOf(60);
    expect(betasDeg[justBelow]).toBeLessThan(60);
    expect(betasDeg[justBelow]).toBeGreaterThan(59.999);
    expect(betas.every((beta, i) => i === justBelow || betasDeg[i] === beta)).toBe(true);
  },
);

test('a sheet is the slips of its snow, variant and direction; a pitched belay of twice as many', () => {
  const party = teamOf('expert', 'solid', 'unreliable');
  const tables = buildTables(party, defaultFigures, [dry('P')], {
    quality: 'coarse',
    turnsRoundGoingDown: false,
    variants: ['running', 'pitched'],
  });
  expect(tables.sheets.map(({ variant, goingDown }) => `${variant} ${goingDown}`)).toEqual([
    'running false',
    'pitched false',
    'running true',
    'pitched true',
  ]);
  const { slopesDeg, betasDeg } = tables;
  for (const { variant, goingDown, unheldPct } of tables.sheets) {
    const slips = variant === 'pitched' ? 512 : 256;
    const way = { party, snow: dry('P'), variant, goingDown };
    expect(unheldPct).toEqual(buildSheet(way, defaultFigures, { slopesDeg, betasDeg, slips }));
  }
});

test('a team that is the same from either end needs no sheets of its own for going down', () => {
  const count = (party: SlipTables['party']) =>
    buildTables(party, defaultFigures, [dry('P')], {
      quality: 'coarse',
      turnsRoundGoingDown: false,
      variants: ['roped'],
    }).sheets.length;
  const alike = teamOf('solid', 'expert', 'solid');
  expect(count(alike)).toBe(1);
  expect(count(teamOf('solid', 'solid'))).toBe(1);
  expect(count(teamOf('solid', 'expert'))).toBe(2);
  expect(count(teamOf('solid', 'solid', 'expert'))).toBe(2);
  const [first, ...others] = alike.climbers;
  expect(count({ ...alike, climbers: [{ ...first!, massKg: 91 }, ...others] })).toBe(2);
});

test('what was not built is named', () => {
  const tables = build({ variants: ['roped'] });
  expect(() => unheldAt(tables, { ...at, variant: 'running' })).toThrow('No slip table for P, running');
  expect(() => unheldAt(tables, { ...at, variant: 'roped', snow: { hardness: 'P', wetness: 'S' } })).toThrow(
    'No slip table for P wet, roped',
  );
});

test('the range is that of the poor and the good end, and a fall onto the stance comes with every running belay', () => {
  const tables = build();
  const place = { ...at, variant: 'running' } as const;
  const { unheld, unheldRange, leadAboveStance: fall } = sharesAt(tables, place);
  const input = { ...place, party: defaultParty, slipsPerClimber: 512 };
  const { low, high } = sharesRange(input);
  expect(high.unheld).toBeLessThan(unheld);
  expect(low.unheld).toBeGreaterThan(unheld);
  expect(unheldRange).toEqual({ lowPct: high.unheld, highPct: low.unheld });
  expect(fall).toEqual(leadAboveStance(input, defaultParty.rope.intervalM));
  expect(sharesAt(tables, { ...at, variant: 'roped' })).not.toHaveProperty('leadAboveStance');
});
