import { exposureS, isBadPlace, placeText, type StandingPlace } from './exposure';
import { candidatesM, candidateStepM, choosePlaces } from './places';

export interface StandingRules {
  /** Of the stretch, along the slope. */
  readonly lengthM: number;
  /** Places a multiple of this apart cost least: the spacing of the pieces, or the length of a pitch. */
  readonly spacingM: number;
  /** How far the team can go from a place where so many pieces stand. */
  reachM(pieces: number): number;
  /** Pieces to stand on at a place. */
  pieces(place: StandingPlace): number;
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
  /** The least exposed place within reach of both neighbours, if it is better than this one. */
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
  const stepM = candidateStepM(rules.lengthM, rules.spacingM);
  const atM = candidatesM(rules.lengthM, stepM);
  const end = atM.length - 1;
  const places = Array.from(atM, (slopeM) => rules.placeAt(slopeM));
  const pieces = Uint8Array.from(places, (place) => rules.pieces(place));
  const exposure = Float64Array.from(places, (place) => exposureS(place));
  exposure[end] = 0;

  const onGrid = new Map<number, number>();
  const legS = (from: number, to: number): number => {
    const standing = { atStart: pieces[from]!, atEnd: pieces[to]! };
    if (to === end) return rules.legS(atM[to]! - atM[from]!, standing);
    const key = (to - from) * 16 + standing.atStart * 4 + standing.atEnd;
    let seconds = onGrid.get(key);
    if (seconds === undefined) onGrid.set(key, (seconds = rules.legS((to - from) * stepM, standing)));
    return seconds;
  };
  // Half a metre more to the end: a piece within that of it is on it.
  const reachM = (from: number) => atM[from]! + rules.reachM(pieces[from]!) + 1e-6;
  const reaches = (from: number, to: number) => atM[to]! <= reachM(from) + (to === end ? 0.5 : 0);
  const choice = { atM: withNearEnd(atM), reachM, legS, exposureS: exposure };
  const chosen = choosePlaces(choice);

  let timeS = 0;
  let exposureSum = 0;
  const standings = chosen.map((at, i): ChosenStanding => {
    const from = i === 0 ? 0 : chosen[i - 1]!;
    const next = chosen[i + 1];
    timeS += legS(from, at);
    exposureSum += exposure[at]!;
    const place = places[at]!;
    const bad = isBadPlace(place);
    const better = next === undefined ? null : betterPlace(from, at, next);
    const reason = [next === undefined ? 'end of the stretch' : '', placeText(place), priceText(at, better)];
    if (next !== undefined && place.forbidden) reason.push('nothing better within reach of the pieces');
    return {
      atM: atM[at]!,
      pieces: pieces[at]!,
      bad,
      reason: reason.filter(Boolean).join('; '),
      better: priced(better),
    };
  });
  return { startPieces: pieces[0]!, standings, timeS, exposureS: exposureSum };

  function betterPlace(from: number, at: number, next: number): { index: number; extraS: number } | null {
    let best = at;
    for (let other = from + 1; other < next; other++) {
      if (!reaches(from, other) || !reaches(other, next)) continue;
      if (exposure[other]! < exposure[best]! - (best === at ? betterFromS : 0)) best = other;
    }
    if (best === at) return null;
    return { index: best, extraS: legS(from, best) + legS(best, next) - legS(from, at) - legS(at, next) };
  }

  function priced(better: { index: number; extraS: number } | null): ChosenStanding['better'] {
    return better === null ? null : { atM: atM[better.index]!, extraS: better.extraS };
  }

  function priceText(at: number, better: { index: number; extraS: number } | null): string {
    if (better === null) return '';
    const offM = atM[better.index]! - atM[at]!;
    const where = `${Math.abs(offM).toFixed(0)} m ${offM > 0 ? 'further on' : 'before'}`;
    const price = better.extraS >= 30 ? `${(better.extraS / 60).toFixed(0)} min more` : 'no more time';
    return `better ${where} (${placeText(places[better.index]!)}), for ${price}`;
  }
}

/** The end is reached half a metre early. */
function withNearEnd(atM: Float64Array): Float64Array {
  const near = atM.slice();
  near[near.length - 1] = Math.max(near[near.length - 2] ?? 0, near[near.length - 1]! - 0.5);
  return near;
}
