import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import type { PaceEvent } from '../../../src/core/pace/pace-event';
import type { RunningBelayOptions } from '../../../src/core/pace/belay-options';
import { runRunningBelay } from '../../../src/core/pace/running-belay';

const runs = { numRuns: cases(1000) };
/** Rotations that differ by less are one to the program. */
const sameM = 1e-5;
const seconds = (max: number) => fc.integer({ min: 0, max }).map(Number);

/** Any team and stretch; spacing one to three pieces an interval, or anything in between. */
const anyBelay: fc.Arbitrary<RunningBelayOptions> = fc
  .record({
    lengthM: fc.oneof(fc.integer({ min: 5, max: 200 }), between(5, 200)),
    climbers: fc.integer({ min: 2, max: 6 }),
    intervalM: fc.integer({ min: 6, max: 30 }),
    parts: fc.oneof(fc.constantFrom(1, 2, 3), between(1, 3)),
    pickets: fc.integer({ min: 2, max: 14 }),
    captureDevices: fc.constantFrom(0, 0, 2, 5),
    speedMS: between(0.05, 0.5),
    acts: fc.record({
      placeS: seconds(700),
      clipS: seconds(60),
      removeS: seconds(300),
      stanceS: seconds(300),
      handoverS: seconds(300),
    }),
    lastLeads: fc.boolean(),
  })
  .map(({ parts, ...belay }) => ({ ...belay, spacingM: belay.intervalM / parts }));

test('more pickets never gather more', () => {
  fc.assert(
    fc.property(anyBelay, (belay) => {
      const more = { ...belay, pickets: belay.pickets + 1 };
      expect(runRunningBelay(more).gatherings).toBeLessThanOrEqual(runRunningBelay(belay).gatherings);
    }),
    runs,
  );
});

test('more pickets never take over 60 s longer', () => {
  fc.assert(
    fc.property(anyBelay, (belay) => {
      const more = { ...belay, pickets: belay.pickets + 1 };
      expect(runRunningBelay(more).timeS).toBeLessThanOrEqual(runRunningBelay(belay).timeS + 60);
    }),
    runs,
  );
});

test('a slower act never makes it quicker', () => {
  const act = fc.constantFrom('placeS', 'clipS', 'removeS', 'stanceS', 'handoverS' as const);
  fc.assert(
    fc.property(anyBelay, act, seconds(500), (belay, slower, byS) => {
      const acts = { ...belay.acts, [slower]: belay.acts[slower] + byS };
      expect(runRunningBelay({ ...belay, acts }).timeS).toBeGreaterThanOrEqual(
        runRunningBelay(belay).timeS - 1e-6,
      );
    }),
    runs,
  );
});

test('every piece placed is removed, and stands in between', () => {
  fc.assert(
    fc.property(anyBelay, (belay) => {
      const { events, piecesPlaced, piecesAtM } = runRunningBelay(belay);
      const removed = events.filter(({ what }) => what === 'remove').map((event) => event.pieceM);
      expect(piecesPlaced).toBe(piecesAtM.length);
      expect(sorted(removed)).toEqual(sorted(piecesAtM));
    }),
    runs,
  );
});

test('never more pieces in the snow than carried', () => {
  fc.assert(
    fc.property(anyBelay, (belay) => {
      let standing = 0;
      let [least, most] = [0, 0];
      for (const { what } of inTime(runRunningBelay(belay).events)) {
        if (what === 'place') standing++;
        if (what === 'remove') standing--;
        [least, most] = [Math.min(least, standing), Math.max(most, standing)];
      }
      expect(least).toBe(0);
      expect(most).toBeLessThanOrEqual(belay.pickets);
    }),
    runs,
  );
});

test('time is that of the log, without gaps or overlaps in any climber', () => {
  fc.assert(
    fc.property(anyBelay, (belay) => {
      const { events, timeS, walkingS, placementS, gatheringS } = runRunningBelay(belay);
      expect(Math.max(...events.map(({ toS }) => toS))).toBeCloseTo(timeS, 6);
      expect(walkingS + placementS + gatheringS).toBeCloseTo(timeS, 6);
      for (let who = 0; who < belay.climbers; who++) {
        const own = inTime(events.filter((event) => event.who === who));
        const broken = own.find((event, i) => {
          const next = own[i + 1] ?? { fromS: event.toS, fromM: event.toM };
          return next.fromS < event.toS - 1e-6 || Math.abs(next.fromM - event.toM) > sameM;
        });
        expect(broken).toBeUndefined();
        expect(Math.abs((own.at(-1)?.toM ?? NaN) - belay.lengthM)).toBeLessThan(sameM);
      }
    }),
    runs,
  );
});

/**
 * While pieces last: as long as the lead goes on, and as long as a rotation is at least as long as the rope team. In a shorter
 * one the others leave its first piece together and walk up to a piece ahead of them.
 */
test('between neighbours apart there is always a piece', () => {
  fc.assert(
    fc.property(anyBelay, (belay) => {
      const { events, gatheringsAtM } = runRunningBelay(belay);
      const rope = (belay.climbers - 1) * belay.intervalM;
      const shortFrom = gatheringsAtM.filter((endM, i) => endM - (gatheringsAtM[i - 1] ?? 0) < rope - 1e-6);
      for (const at of momentsOf(events, belay)) {
        const short = at.gathering && shortFrom.includes(at.placesM[0]!);
        for (let behind = 1; behind < belay.climbers; behind++) {
          const [aheadM, behindM] = [at.placesM[behind - 1]!, at.placesM[behind]!];
          if (aheadM - behindM <= 0.5) continue;
          const toM = short ? at.placesM[0]! : aheadM;
          const held = at.piecesM.some((m) => m >= behindM - 0.5 && m <= toM + 0.5);
          if (!held) expect.fail(`${behind} at ${behindM} below ${aheadM}, pieces ${at.piecesM.join()}`);
        }
      }
    }),
    runs,
  );
});

interface Moment {
  readonly gathering: boolean;
  /** Front to back. */
  readonly placesM: readonly number[];
  readonly piecesM: readonly number[];
}

/** The middle of every walk: where climbers are and which pieces stand. */
function momentsOf(log: readonly PaceEvent[], { climbers }: RunningBelayOptions): Moment[] {
  const events = inTime(log);
  const pieces: number[] = [];
  const placesM = Array.from({ length: climbers }, () => 0);
  const moments: Moment[] = [];
  for (const { what, who, pieceM, fromS, toS, fromM, toM } of events) {
    if (what === 'place') pieces.push(pieceM!);
    if (what === 'remove') pieces.splice(pieces.indexOf(pieceM!), 1);
    placesM[who] = toM;
    if ((what === 'walk' || what === 'follow') && toS > fromS) {
      const middle = events.filter((e) => e.fromS <= (fromS + toS) / 2 && e.toS > (fromS + toS) / 2);
      const here = [...placesM];
      for (const e of middle)
        here[e.who] = e.fromM + ((e.toM - e.fromM) * ((fromS + toS) / 2 - e.fromS)) / (e.toS - e.fromS);
      here[who] = (fromM + toM) / 2;
      moments.push({
        gathering: what === 'follow',
        placesM: here.sort((a, b) => b - a),
        piecesM: [...pieces],
      });
    }
  }
  return moments;
}

const inTime = (events: readonly PaceEvent[]) =>
  [...events].sort((a, b) => a.fromS - b.fromS || a.toS - b.toS);

/** To the micrometre. */
const sorted = (values: readonly (number | undefined)[]) =>
  values.map((v) => Math.round((v ?? NaN) * 1e6) / 1e6).sort((a, b) => a - b);
