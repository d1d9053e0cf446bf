import { expect, test } from 'vitest';
import type { Station } from '../../../src/core/domain/station';
import { eventsOnLine } from '../../../src/core/pace/on-line';
import type { PaceEvent } from '../../../src/core/pace/pace-event';

/** Level for 30 m, then 3 m up for every 4 m: 5 m of slope. */
const stations = [0, 10, 20, 30, 34, 38, 42].map(
  (alongM) => ({ alongM, elevationM: alongM <= 30 ? 100 : 100 + (3 * (alongM - 30)) / 4 }) as Station,
);

test('a log counted along the slope is told along the line', () => {
  const events = [
    { who: 0, what: 'walk', fromS: 0, toS: 60, fromM: 0, toM: 20 },
    { who: 0, what: 'place', fromS: 60, toS: 90, fromM: 20, toM: 20, pieceM: 20 },
  ] as PaceEvent[];
  // From 20 m: 10 m of level, then 10 m of slope, which are 8 m of the line.
  const [walk, place] = eventsOnLine(events, stations, 20);
  expect([walk!.fromM, walk!.toM]).toEqual([20, 38]);
  expect(walk).not.toHaveProperty('pieceM');
  expect(place).toMatchObject({ who: 0, what: 'place', fromS: 60, toS: 90, fromM: 38, toM: 38, pieceM: 38 });
});
