import { exposureS, isBadPlace, placeText, type StandingPlace } from './exposure';
import { candidatesM, choiceCost, choosePlaces, type PlaceChoice } from './places';
import { sameMomentM } from './rotation';

export interface StandingRules {
  /** Of the stretch, along the slope. */
  readonly lengthM: number;
  /** Places are looked at every so far. Best a part of the distances that cost least, such as the pieces' spacing. */
  readonly stepM: number;
  /** How far the team can go from a place where so many pieces stand. */
  reachM(pieces: number): number;
  /** Pieces to stand on at a place. */
  pieces(place: StandingPlace): 1 | 2;
  /** Seconds from one standing place to the next, with what is done there. */
  legS(lengthM: number, pieces: { readonly atStart: number; readonly atEnd: number }): number;
  placeAt(slopeM: number): StandingPlace;
}

export interface ChosenStanding {
  /** From the stretch's start, along the slope. */
  readonly atM: number;
  readonly pieces: number;
  readonly bad: boolean;
  readonly reason: string;
  /** The least exposed place between its neighbours, if it is better than this one, and what standing there costs. */
  readonly better: { readonly atM: number; readonly extraS: number } | null;
}

export interface StandingChoice {
  readonly startPieces: number;
  readonly standings: readonly ChosenStanding[];
  /** Time and exposure of the whole choice. */
  readonly timeS: number;
  readonly exposureS: number;
}

/** A place counts as better from this much exposure less on. */
const betterFromS = 30;

/**
 * Chooses where the team stands together: within reach, so that time plus exposure is least; never on a mark that forbids
 * it unless nothing else is in reach. The last is the stretch's end, which is given.
 */
export function chooseStandings(rules: StandingRules): StandingChoice {
  const { lengthM, stepM } = rules;
  const atM = candidatesM(lengthM, stepM);
  const end = atM.length - 1;
  const places: StandingPlace[] = [];
  const pieces = new Uint8Array(end + 1);
  const exposure = new Float64Array(end + 1);
  for (let i = 0; i <= end; i++) {
    const place = rules.placeAt(atM[i]!);
    places.push(place);
    pieces[i] = rules.pieces(place);
    exposure[i] = i === end ? 0 : exposureS(place);
  }

  // On the grid a leg depends on its steps and on what it stands on: each is counted once.
  const onGridS = new Float64Array((end + 1) * 4).fill(NaN);
  const legS = (from: number, to: number): number => {
    if (to === end) return rules.legS(atM[to]! - atM[from]!, { atStart: pieces[from]!, atEnd: pieces[to]! });
    const key = (to - from) * 4 + (pieces[from]! - 1) * 2 + pieces[to]! - 1;
    const known = onGridS[key]!;
    if (!Number.isNaN(known)) return known;
    const standing = { atStart: pieces[from]!, atEnd: pieces[to]! };
    return (onGridS[key] = rules.legS((to - from) * stepM, standing));
  };
  const choice: PlaceChoice = {
    atM: withNearEnd(atM),
    reachM: (from) => atM[from]! + rules.reachM(pieces[from]!) + 1e-6,
    legS,
    exposureS: exposure,
  };
  const { chosen, legsThroughS } = choosePlaces(choice);
  const cost = choiceCost(choice, chosen);

  const standings = chosen.map((at, i): ChosenStanding => {
    const place = places[at]!;
    // A forbidden place is only chosen where every choice has to stand on one.
    const given = at === end || place.forbidden;
    const better = given ? null : betterThan(at, chosen[i - 1] ?? 0, chosen[i + 1]!);
    const reason = [at === end ? 'end of the stretch' : '', placeText(place)];
    if (place.forbidden && at !== end) reason.push('nothing better within reach of the pieces');
    if (better !== null) reason.push(betterText(better.atM - atM[at]!, places[better.index]!, better.extraS));
    return {
      atM: atM[at]!,
      pieces: pieces[at]!,
      bad: isBadPlace(place),
      reason: reason.filter(Boolean).join('; '),
      better: better === null ? null : { atM: better.atM, extraS: better.extraS },
    };
  });
  return { startPieces: pieces[0]!, standings, timeS: cost.legsS, exposureS: cost.exposureS };

  /** The least exposed place between two others, nearest of equals, and what the best choice that stands there costs. */
  function betterThan(at: number, after: number, before: number) {
    let index = at;
    for (let other = after + 1; other < before; other++) {
      const lessS = exposure[index]! - exposure[other]!;
      if (lessS > (index === at ? betterFromS : 0)) index = other;
      else if (lessS === 0 && index !== at && Math.abs(other - at) < Math.abs(index - at)) index = other;
    }
    if (index === at || places[index]!.forbidden) return null;
    return { index, atM: atM[index]!, extraS: legsThroughS(index) - cost.legsS };
  }
}

function betterText(offM: number, place: StandingPlace, extraS: number): string {
  const where = `${Math.abs(offM).toFixed(0)} m ${offM > 0 ? 'further on' : 'before'}`;
  const price = extraS >= 30 ? `${(extraS / 60).toFixed(0)} min more` : 'no more time';
  return `better ${where} (${placeText(place)}), for ${price}`;
}

/** Half a metre before the end is on it. */
function withNearEnd(atM: Float64Array): Float64Array {
  const near = atM.slice();
  near[near.length - 1] = Math.max(near[near.length - 2]!, near[near.length - 1]! - sameMomentM);
  return near;
}
