import type { Variant } from '../../../src/core/domain/mode';
import type { Ability } from '../../../src/core/domain/rope-team';
import type { Hardness } from '../../../src/core/domain/snow';

/**
 * The slip followed a second time, by a program of its own: small steps of time, everybody and every piece with a place on the
 * slope, a rope that is tight when its ends are far enough apart, chance from a plain random generator. Figures are written
 * down again, too. Nothing is imported but names, so that agreement with the core means something.
 */
type Three = readonly [low: number, mode: number, high: number];

const snowFigures: Readonly<Record<Hardness, { slide: Three; arrest: Three; kN: number }>> = {
  F: { slide: [0.3, 0.45, 0.6], arrest: [0.7, 1, 1.4], kN: 0.3 },
  '4F': { slide: [0.25, 0.35, 0.5], arrest: [0.7, 0.95, 1.3], kN: 1 },
  '1F': { slide: [0.15, 0.25, 0.35], arrest: [0.6, 0.85, 1.1], kN: 3 },
  P: { slide: [0.05, 0.12, 0.25], arrest: [0.45, 0.7, 0.95], kN: 5 },
  K: { slide: [0.03, 0.06, 0.12], arrest: [0.3, 0.45, 0.65], kN: 6.4 },
  I: { slide: [0.02, 0.03, 0.06], arrest: [0.02, 0.08, 0.2], kN: 0 },
};

const abilityFigures: Readonly<Record<Ability, { arrests: number; ready: number; slips: number }>> = {
  expert: { arrests: 0.95, ready: 0.85, slips: 1 },
  solid: { arrests: 0.85, ready: 0.7, slips: 3 },
  learning: { arrests: 0.55, ready: 0.4, slips: 6 },
  unreliable: { arrests: 0.1, ready: 0.1, slips: 10 },
};

const g = 9.80665;

/** Everything that chance decides in one slip. Climbers from the highest down, pieces of an interval from its upper end. */
export interface OneChance {
  readonly slopeDeg: number;
  readonly muSlide: number;
  readonly muArrest: number;
  readonly modulusN: number;
  readonly slackM: number;
  /** Part of a spacing that the lead is past the last piece. */
  readonly past: number;
  readonly climbers: readonly {
    readonly massKg: number;
    readonly arrests: boolean;
    readonly ready: boolean;
    readonly reactionS: number;
  }[];
  readonly strengthN: readonly (readonly number[])[];
}

export interface Way {
  readonly intervalM: number;
  readonly betaDeg: number;
  readonly goingDown: boolean;
  readonly piecesPerInterval: 0 | 1 | 2;
  /** Intervals from the highest whose pieces carry a device. */
  readonly devices: number;
}

export type End = 'itself' | 'own arrest' | 'mates' | 'piece' | 'unheld';

export interface Slid {
  readonly end: End;
  readonly leadPulledOff: boolean;
  readonly loadN: number;
  /** Energy of those who slid, J: of motion at the end, and what sudden tightening took away. */
  readonly movingJ: number;
  readonly lostJ: number;
}

interface Body {
  downM: number;
  readonly asideM: number;
}

interface Drag {
  readonly mate: number;
  readonly interval: number;
  /** Where the mate began, down the slope. */
  readonly fromM: number;
}

/** @param stepS finer is truer and slower. */
export function followSlip(way: Way, chance: OneChance, slipper: number, stepS = 0.005): Slid {
  const slope = (chance.slopeDeg * Math.PI) / 180;
  const beta = (way.betaDeg * Math.PI) / 180;
  const abreast = way.betaDeg >= 60;
  const d = way.intervalM;
  const onLine = (m: number): Body => ({ downM: m * Math.cos(beta), asideM: m * Math.sin(beta) });
  const people = chance.climbers.map((_, i) => onLine(i * d));
  const spacing = d / Math.max(1, way.piecesPerInterval);
  // Pieces are counted from the lead, who is the highest going up and the lowest going down.
  const offsets = Array.from({ length: way.piecesPerInterval }, (_, p) => (chance.past + p) * spacing);
  const pieces = people.slice(1).map((_, interval) => {
    const fromUpper = way.goingDown ? offsets.map((m) => d - m).reverse() : offsets;
    return fromUpper.map((m, p) => ({
      ...onLine(interval * d + m),
      fromUpperM: m,
      strengthN: chance.strengthN[interval]![p]!,
      gone: false,
    }));
  });
  const standing = (interval: number) => pieces[interval]?.filter(({ gone }) => !gone) ?? [];
  const gapM = (a: Body, b: Body) => Math.hypot(a.downM - b.downM, a.asideM - b.asideM);

  const group = new Set([slipper]);
  const drags: Drag[] = [];
  let [timeS, speed, loadN, lostJ, leadPulledOff] = [0, 0, 0, 0, false];

  const isDragged = (i: number) => drags.some(({ mate }) => mate === i);
  let braking = false;
  const muOf = (i: number): number => {
    if (i === slipper) return braking ? chance.muArrest : chance.muSlide;
    return chance.climbers[i]!.ready ? chance.muArrest : chance.muSlide;
  };
  const pullN = (i: number): number => {
    const share = isDragged(i) ? 0.6 ** (beta / Math.PI) : 1;
    return share * chance.climbers[i]!.massKg * g * (Math.sin(slope) - muOf(i) * Math.cos(slope));
  };
  const massKg = () => [...group].reduce((sum, i) => sum + chance.climbers[i]!.massKg, 0);
  const movingJ = () => 0.5 * massKg() * speed * speed;
  const driveN = () => [...group].reduce((sum, i) => sum + pullN(i), 0);
  const bears = (tensionN: number, limitN: number): boolean => {
    loadN = Math.max(loadN, tensionN);
    return tensionN <= limitN;
  };
  const join = (mate: number): void => {
    const [beforeKg, beforeJ] = [massKg(), movingJ()];
    group.add(mate);
    speed *= beforeKg / massKg();
    lostJ += beforeJ - movingJ();
    if (mate === 0) leadPulledOff = true;
  };
  const finished = (end: End): Slid => ({
    end,
    leadPulledOff,
    loadN,
    lostJ,
    movingJ: end === 'piece' || end === 'unheld' ? movingJ() : 0,
  });

  if (driveN() <= 0) return finished('itself');
  for (;;) {
    speed += (driveN() / massKg()) * stepS;
    timeS += stepS;
    if (speed <= 0) return finished(group.size === 1 ? 'own arrest' : 'mates');
    for (const i of group) people[i]!.downM += speed * stepS;

    const drag = drags[0];
    if (drag !== undefined) {
      const left = standing(drag.interval);
      const isAbove = drag.mate === drag.interval;
      const next = isAbove ? left[0]! : left.at(-1)!;
      const goM = isAbove ? next.fromUpperM : d - next.fromUpperM;
      if (people[drag.mate]!.downM - drag.fromM < goM) continue;
      const D = Math.max(0, driveN());
      const tensionN = D + Math.sqrt(D * D + ((4 * chance.modulusN) / d) * massKg() * speed * speed);
      if (bears(tensionN, next.strengthN)) return finished('piece');
      next.gone = true;
      if (standing(drag.interval).length === 0) drags.shift();
      continue;
    }

    const [top, bottom] = [Math.min(...group), Math.max(...group)];
    if (top > 0) {
      const interval = top - 1;
      const nearest = standing(interval).at(-1);
      if (nearest !== undefined && interval < way.devices) {
        const ropeM = d - nearest.fromUpperM;
        if (gapM(people[top]!, nearest) >= ropeM + chance.slackM && people[top]!.downM > nearest.downM) {
          const D = Math.max(0, driveN());
          const k = chance.modulusN / Math.max(1, ropeM);
          const tensionN = D + Math.sqrt(D * D + k * massKg() * speed * speed);
          if (bears(tensionN, Math.min(4000, nearest.strengthN))) return finished('piece');
          nearest.gone = true;
          continue;
        }
      } else if (gapM(people[top]!, people[interval]!) >= d + chance.slackM) {
        join(interval);
        if (nearest !== undefined) drags.push({ mate: interval, interval, fromM: people[interval]!.downM });
        continue;
      }
    }
    if (bottom < people.length - 1) {
      const nearest = standing(bottom)[0];
      const mate = bottom + 1;
      if (nearest !== undefined && !abreast) {
        const fallsPast = people[bottom]!.downM > nearest.downM || way.betaDeg > 0;
        if (fallsPast && gapM(people[bottom]!, nearest) >= nearest.fromUpperM + chance.slackM) {
          const tensionN = leadFallN(mate);
          const r = 0.6 ** ((Math.PI - beta) / Math.PI);
          const bothN = Math.hypot(tensionN + r * tensionN * Math.cos(beta), r * tensionN * Math.sin(beta));
          if (bears(bothN, nearest.strengthN)) return finished('piece');
          nearest.gone = true;
          continue;
        }
      } else if (gapM(people[bottom]!, people[mate]!) >= d + chance.slackM) {
        join(mate);
        if (nearest !== undefined) drags.push({ mate, interval: bottom, fromM: people[mate]!.downM });
        continue;
      }
    }
    // Nobody begins to brake while a mate is being dragged onto a piece, nor before the ropes that are tight have acted.
    const { arrests, reactionS } = chance.climbers[slipper]!;
    if (arrests && timeS >= reactionS) braking = true;
    const done = group.size === people.length && !(arrests && !braking);
    if (done && drags.length === 0 && driveN() > 0) return finished('unheld');
  }

  /** The snatch, itself stepped through in time: a group and a mate on one spring. */
  function leadFallN(mate: number): number {
    const r = 0.6 ** ((Math.PI - beta) / Math.PI);
    const k = chance.modulusN / d;
    const m = massKg();
    const D = Math.max(0, driveN());
    const mateKg = chance.climbers[mate]!.massKg;
    const mu = chance.climbers[mate]!.ready ? chance.muArrest : 0.3;
    const holdsN = mateKg * g * (Math.sin(slope) + mu * Math.cos(slope));
    const fixedN = D + Math.sqrt(D * D + k * m * speed * speed);
    const dt = 1e-4;
    let [stretchM, fallMS, mateMS, peakN] = [0, speed, 0, 0];
    do {
      const tensionN = k * stretchM;
      peakN = Math.max(peakN, tensionN);
      fallMS += ((D - tensionN) / m) * dt;
      const mateForceN = r * tensionN - holdsN;
      mateMS = Math.max(0, mateMS + (mateForceN / mateKg) * dt);
      stretchM += (fallMS - mateMS) * dt;
    } while (fallMS > mateMS);
    return Math.min(peakN, fixedN);
  }
}

/** A plain congruential generator: chance of its own, from a seed. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
}

interface Team {
  readonly members: readonly Ability[];
  readonly massKg: number;
  readonly intervalM: number;
  readonly ropeM: number;
  readonly modulusKN: readonly [low: number, high: number];
}

/** 60 m of rope of 9 kN and 8 %, 12 m apart, 90 kg each. */
export const usualTeam = (...members: readonly Ability[]): Team => ({
  members,
  massKg: 90,
  intervalM: 12,
  ropeM: 60,
  modulusKN: [9.81, 24.08],
});

export interface SecondShares {
  readonly unheld: number;
  readonly leadPulledOff: number;
}

/** Shares of 100 for a team on one slope, spread 1.5 degrees, a device on every piece in `running-capture`. */
export function secondShares(
  team: Team,
  at: { hardness: Hardness; slopeDeg: number; betaDeg: number; variant: Variant; goingDown?: boolean },
  slips: number,
): SecondShares {
  const next = random(20_261_125);
  const figures = snowFigures[at.hardness];
  const byHeight = at.goingDown === true ? team.members.toReversed() : team.members;
  const normal = () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
  const triangular = ([low, mode, high]: Three): number => {
    const u = next();
    const peak = (mode - low) / (high - low);
    const down = (1 - u) * (high - low) * (high - mode);
    return u < peak ? low + Math.sqrt(u * (high - low) * (mode - low)) : high - Math.sqrt(down);
  };
  const [lowKN, highKN] = team.modulusKN;
  const pieceN = () => 1000 * Math.min(6.4, figures.kN * Math.exp(0.4 * normal()));
  let [unheld, total, pulled, followers] = [0, 0, 0, 0];
  for (let i = 0; i < slips; i++) {
    const slopeDeg = Math.max(0, at.slopeDeg + 1.5 * normal());
    const easy = Math.min(1, Math.max(0, (25 - slopeDeg) / 15));
    const shared = {
      slopeDeg,
      muSlide: triangular(figures.slide),
      muArrest: triangular(figures.arrest),
      modulusN: 1000 * triangular([lowKN, lowKN + 0.4 * (highKN - lowKN), highKN]),
      past: next(),
    };
    const slackM = at.variant === 'pitched' ? triangular([0.3, 0.8, 2]) : triangular([0.3, 1, 2.5]);
    const climbers = byHeight.map((ability) => {
      const u = next();
      const { arrests, ready } = abilityFigures[ability];
      const eased = (p: number) => p + (1 - p) * easy;
      return {
        massKg: team.massKg,
        arrests: u < eased(arrests),
        ready: u < eased(ready),
        reactionS: triangular([0.5, 1, 2]),
      };
    });
    const strengthN = byHeight.map(() => [pieceN(), pieceN()]);
    const chance = { ...shared, slackM, climbers, strengthN };
    const pitch = {
      pitchM: Math.min(50, team.ropeM - 6 - 3 * (team.members.length - 2)),
      betaDeg: at.betaDeg,
      strengthN: Array.from({ length: 7 }, pieceN),
    };
    const way = {
      ...wayOf(at.variant, figures.kN),
      intervalM: team.intervalM,
      betaDeg: at.betaDeg,
      goingDown: at.goingDown === true,
    };
    byHeight.forEach((ability, slipper) => {
      const weight = abilityFigures[ability].slips;
      const slid =
        at.variant === 'pitched'
          ? { ...followPitch(pitch, chance, slipper), leadPulledOff: false }
          : followSlip(way, chance, slipper);
      total += weight;
      if (slid.end === 'unheld') unheld += weight;
      if (slipper === 0) return;
      followers += weight;
      if (slid.leadPulledOff) pulled += weight;
    });
  }
  return { unheld: (100 * unheld) / total, leadPulledOff: (100 * pulled) / followers };
}

const wayOf = (variant: Variant, kN: number): Pick<Way, 'piecesPerInterval' | 'devices'> => ({
  piecesPerInterval: variant === 'roped' || kN === 0 ? 0 : variant === 'running-double' ? 2 : 1,
  devices: variant === 'running-capture' ? Infinity : 0,
});

export interface Pitch {
  readonly pitchM: number;
  readonly betaDeg: number;
  /** Of one piece of the anchor, then of the runners from the stance on. */
  readonly strengthN: readonly number[];
}

/** One climber belayed from an anchor, stepped through in time. Chance's `past` is the part of the pitch that is climbed. */
export function followPitch(
  { pitchM, betaDeg, strengthN }: Pitch,
  chance: OneChance,
  slipper: number,
  stepS = 0.005,
): Pick<Slid, 'end' | 'loadN'> {
  const slope = (chance.slopeDeg * Math.PI) / 180;
  const beta = (betaDeg * Math.PI) / 180;
  const outM = chance.past * pitchM;
  const { massKg, arrests, reactionS } = chance.climbers[slipper]!;
  const anchorN = Math.min(9000, 1.8 * strengthN[0]!);
  // Points that may catch the climber, in the order in which the rope comes tight: distance from the climber along the line.
  const isLead = slipper === 0;
  const runners = isLead ? strengthN.slice(1).flatMap((limitN, i) => ({ atM: 8 * (i + 1), limitN })) : [];
  const points = [
    ...runners
      .filter(({ atM }) => atM < outM)
      .reverse()
      .map(({ atM, limitN }) => ({ apartM: outM - atM, limitN, legs: 1.6 })),
    { apartM: isLead ? outM : 1 + outM, limitN: anchorN, legs: 1 },
  ];
  const ropeM = Math.max(1, isLead ? outM : 1 + outM);

  let [slidM, speed, timeS, loadN] = [0, 0, 0, 0];
  const acceleration = () => {
    const mu = arrests && timeS >= reactionS ? chance.muArrest : chance.muSlide;
    return g * (Math.sin(slope) - mu * Math.cos(slope));
  };
  if (acceleration() <= 0) return { end: 'itself', loadN };
  for (const { apartM, limitN, legs } of points) {
    const isTight = () => {
      const belowM = slidM - (isLead ? apartM * Math.cos(beta) : -apartM * Math.cos(beta));
      return belowM > 0 && Math.hypot(belowM, apartM * Math.sin(beta)) >= apartM + chance.slackM;
    };
    while (!isTight()) {
      speed += acceleration() * stepS;
      if (speed <= 0) return { end: 'own arrest', loadN };
      slidM += speed * stepS;
      timeS += stepS;
    }
    const D = Math.max(0, massKg * acceleration());
    const tensionN = legs * (D + Math.sqrt(D * D + (chance.modulusN / ropeM) * massKg * speed * speed));
    loadN = Math.max(loadN, tensionN);
    if (tensionN <= limitN) return { end: 'piece', loadN };
  }
  return { end: 'unheld', loadN };
}
