import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import type { RunningBelayOptions } from '../../../src/core/pace/belay-options';
import { reachM } from '../../../src/core/pace/belay-options';
import { exposureS, type StandingPlace } from '../../../src/core/pace/exposure';
import { chooseStandings } from '../../../src/core/pace/gatherings';
import { candidatesM } from '../../../src/core/pace/places';
import { rotationS } from '../../../src/core/pace/rotation-time';
import { runRunningBelay } from '../../../src/core/pace/running-belay';

interface Belay extends RunningBelayOptions {
  readonly speedMS: number;
}

/** The team moved on metre by metre, everybody looking at their feet: the rules as a guide would say them. */
function walkedMetreByMetre({ acts, climbers, intervalM, spacingM, ...belay }: Belay): number {
  const last = climbers - 1;
  const clipS = belay.captureDevices > 0 ? 2 * acts.clipS : acts.clipS;
  let seconds = acts.placeS;
  let startM = 0;
  for (;;) {
    const endM = Math.min(belay.lengthM, startM + (belay.pickets - 1) * spacingM);
    const pieces = new Set<number>();
    const feetM = Array.from({ length: climbers }, () => startM);
    /** Everybody goes to their next place; what those who come to a piece do there, the lead left out. */
    const step = (to: (m: number, who: number) => number): number[] => {
      const nextM = feetM.map(to);
      const acting = nextM.flatMap((m, who) => {
        if (who === 0 || m === feetM[who] || !pieces.has(m)) return [];
        return [who === last ? acts.removeS : clipS];
      });
      feetM.splice(0, climbers, ...nextM);
      return acting;
    };

    for (let leadM = startM + 1; leadM <= endM; leadM++) {
      seconds += 1 / belay.speedMS;
      const now = step((_, who) => Math.max(startM, leadM - who * intervalM));
      if (leadM - last * intervalM === startM) now.push(acts.removeS);
      if ((leadM - startM) % spacingM === 0) {
        now.push(acts.placeS);
        if (leadM < endM) pieces.add(leadM);
      }
      seconds += Math.max(0, ...now);
    }
    if ((endM - startM) % spacingM !== 0) seconds += acts.placeS;
    seconds += acts.stanceS;
    if (endM - startM < last * intervalM) seconds += acts.removeS;
    while (feetM[last]! < endM) {
      seconds += 1 / belay.speedMS;
      seconds += Math.max(0, ...step((m) => Math.min(endM, m + 1)));
    }
    startM = endM;
    if (endM === belay.lengthM) return seconds + acts.removeS;
    if (belay.lastLeads !== true) seconds += acts.handoverS;
  }
}

const secondsUpTo = (max: number) => fc.integer({ min: 0, max });

/** Whole metres, so that two moments are the same or a metre apart. */
const anyBelay: fc.Arbitrary<Belay> = fc
  .record({
    lengthM: fc.integer({ min: 3, max: 160 }),
    climbers: fc.integer({ min: 2, max: 6 }),
    intervalM: fc.integer({ min: 4, max: 20 }),
    parts: between(1, 3),
    pickets: fc.integer({ min: 2, max: 12 }),
    captureDevices: fc.constantFrom(0, 20),
    speedMS: fc.constantFrom(0.1, 0.2, 0.25),
    acts: fc.record({
      placeS: secondsUpTo(500),
      clipS: secondsUpTo(60),
      removeS: secondsUpTo(200),
      stanceS: secondsUpTo(200),
      handoverS: secondsUpTo(200),
    }),
    lastLeads: fc.boolean(),
  })
  .map(({ parts, ...belay }) => ({ ...belay, spacingM: Math.max(1, Math.floor(belay.intervalM / parts)) }));

test('a running belay takes as long as moved on metre by metre', () => {
  fc.assert(
    fc.property(anyBelay, (belay) => {
      const eachM = (belay.pickets - 1) * belay.spacingM;
      const rotations = Math.ceil(belay.lengthM / eachM);
      const gatheringsAtM = Array.from({ length: rotations }, (_, i) =>
        Math.min(belay.lengthM, (i + 1) * eachM),
      );
      expect(runRunningBelay({ ...belay, gatheringsAtM }).timeS).toBeCloseTo(walkedMetreByMetre(belay), 6);
    }),
    { numRuns: cases(1000) },
  );
});

const anyGround: fc.Arbitrary<StandingPlace> = fc.record({
  slopeDeg: fc.option(fc.integer({ min: 5, max: 45 })),
  runOut: fc.constantFrom('gentle', 'injuring', 'deadly', null),
  forbidden: fc.constantFrom(false, false, false, true),
  good: fc.constantFrom(false, false, false, true),
});

test('gatherings are as good as the best of all, time by the count of events and exposure together', () => {
  fc.assert(
    fc.property(anyBelay, fc.array(anyGround, { minLength: 10, maxLength: 10 }), (belay, ground) => {
      const lengthM = Math.min(belay.lengthM, 8 * belay.spacingM);
      const options = { ...belay, lengthM, captureDevices: 0 };
      const placeAt = (m: number) => ground[Math.min(9, Math.round(m / belay.spacingM))]!;
      const pieces = ({ runOut }: StandingPlace) =>
        belay.pickets >= 3 && (runOut === 'deadly' || runOut === null) ? 2 : 1;
      const standingPieces = (m: number) => pieces(placeAt(m));
      const costS = (gatheringsAtM: readonly number[]) =>
        runRunningBelay({ ...options, gatheringsAtM, standingPieces, withoutEvents: true }).timeS +
        gatheringsAtM.slice(0, -1).reduce((sum, m) => sum + exposureS(placeAt(m)), 0);

      const choice = chooseStandings({
        lengthM,
        stepM: belay.spacingM,
        reachM: (standing) => reachM(options, standing),
        pieces,
        legS: (legM, standing) => rotationS(options, legM, standing),
        placeAt,
      });
      const inner = [...candidatesM(lengthM, belay.spacingM)].slice(1, -1);
      let bestS = Infinity;
      for (let code = 0; code < 2 ** inner.length; code++) {
        const atM = [...inner.filter((_, i) => (code >> i) % 2 === 1), lengthM];
        const inReach = atM.every((m, i) => {
          const fromM = atM[i - 1] ?? 0;
          return m - fromM <= reachM(options, standingPieces(fromM)) + 0.5;
        });
        if (inReach) bestS = Math.min(bestS, costS(atM));
      }
      expect(costS(choice.standings.map(({ atM }) => atM))).toBeCloseTo(bestS, 4);
    }),
    { numRuns: cases(150) },
  );
});
