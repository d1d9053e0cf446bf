import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { variants } from '../../../src/core/domain/mode';
import { drawSlips } from '../../../src/core/slip/draws';
import { ending } from '../../../src/core/slip/one-slip';
import { byHeight, slipFollower } from '../../../src/core/slip/slip-follower';
import { buildSheet } from '../../../src/core/slip/slip-sheet';
import { anyParty, anySnow } from './teams';

const grid = {
  slopesDeg: Float64Array.from({ length: 51 }, (_, row) => 1.5 * row),
  betasDeg: Float64Array.of(0, 35, 60, 90),
  slips: 64,
};

test('looked for about one slope, slips end as if each were followed on every slope', () => {
  let steps = 0;
  fc.assert(
    fc.property(
      anyParty,
      anySnow,
      fc.constantFrom(...variants),
      fc.boolean(),
      (party, snow, variant, goingDown) => {
        const way = { party, snow, variant, goingDown };
        const climbers = byHeight(party.climbers, goingDown);
        const weights = climbers.map(({ ability }) => defaultFigures.ability[ability].slips);
        const total = grid.slips * weights.reduce((sum, weight) => sum + weight, 0);
        const draws = drawSlips(climbers.length, party.rope, snow, defaultFigures, grid.slips);
        const sheet = buildSheet(way, defaultFigures, grid);
        grid.betasDeg.forEach((betaDeg, column) => {
          const slip = slipFollower(way, betaDeg, defaultFigures, draws);
          grid.slopesDeg.forEach((slopeDeg, row) => {
            let unheld = 0;
            for (let i = 0; i < grid.slips; i++) {
              slip.draw(i);
              slip.standOn(slopeDeg);
              climbers.forEach((_, slipper) => {
                if (slip.follow(slipper) === ending.unheld) unheld += weights[slipper]!;
              });
            }
            const looked = sheet[row * grid.betasDeg.length + column]!;
            if (looked > 0 && looked < 100) steps++;
            // One slip of 64 by the heaviest slipper is 1.6 of 100: a single slip that is held again on steeper ground.
            expect(Math.abs(looked - (100 * unheld) / total)).toBeLessThan(1.6);
          });
        });
      },
    ),
    { numRuns: cases(12) },
  );
  expect(steps).toBeGreaterThan(100);
});
