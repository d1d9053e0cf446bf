import type { LngLat } from '../domain/coordinates';
import { fromMgrs, toMgrs } from './mgrs';
import { bandOf, fromUtm, isNorthBand, toUtm } from './utm';

export const notations = ['decimal-degrees', 'degrees-minutes-seconds', 'utm', 'mgrs'] as const;
export type Notation = (typeof notations)[number];

export const notationName: Readonly<Record<Notation, string>> = {
  'decimal-degrees': 'decimal degrees',
  'degrees-minutes-seconds': 'degrees, minutes, seconds',
  utm: 'UTM',
  mgrs: 'MGRS',
};

/** A position in words; null where the notation does not reach (UTM and MGRS near the poles). WGS 84, latitude first. */
export function formatPosition(position: LngLat, notation: Notation): string | null {
  switch (notation) {
    case 'decimal-degrees':
      return `${degrees(position[1])}, ${degrees(position[0])}`;
    case 'degrees-minutes-seconds':
      return `${dms(position[1], 'N', 'S')} ${dms(position[0], 'E', 'W')}`;
    case 'utm':
      return utm(position);
    case 'mgrs':
      return toMgrs(position);
  }
}

/** Five decimals are about a metre. */
const degrees = (deg: number): string => {
  const text = deg.toFixed(5);
  return Number(text) === 0 ? text.replace('-', '') : text;
};

function dms(deg: number, positive: string, negative: string): string {
  const tenths = Math.round(Math.abs(deg) * 36_000);
  const whole = (tenths % 600) / 10;
  const minutes = Math.floor(tenths / 600) % 60;
  const pad = (value: number, figures: number, places = 0) =>
    value.toFixed(places).padStart(figures + (places === 0 ? 0 : 1 + places), '0');
  const side = deg < 0 && tenths > 0 ? negative : positive;
  return `${Math.floor(tenths / 36_000)}°${pad(minutes, 2)}′${pad(whole, 2, 1)}″ ${side}`;
}

function utm(position: LngLat): string | null {
  const place = toUtm(position);
  if (place === null) return null;
  return `${place.zone}${place.band} ${place.eastingM.toFixed(0)} E ${place.northingM.toFixed(0)} N`;
}

/** One way to understand a text. */
export interface Reading {
  readonly position: LngLat;
  readonly notation: Notation;
  /** What was taken for granted; empty where the text says it all. */
  readonly assumed: string;
}

/** Every way to understand a text as a position, likeliest first; empty where there is none. Several: ask. */
export function readPosition(text: string): Reading[] {
  const bare = text.trim().slice(0, 200);
  return [...fromDegrees(bare), ...fromMgrsText(bare), ...fromUtmText(bare)];
}

function fromMgrsText(text: string): Reading[] {
  const position = fromMgrs(text);
  return position === null ? [] : [{ position, notation: 'mgrs', assumed: '' }];
}

const utmGrammar =
  /^(\d{1,2})\s*([A-Z])[\s,]+(\d{5,6}(?:\.\d+)?)\s*m?\s*E?[\s,]+(\d{1,8}(?:\.\d+)?)\s*m?\s*N?$/i;

/** Zone, letter, easting, northing. The letter S is a band in the north to some and the southern half to others. */
function fromUtmText(text: string): Reading[] {
  const [, zoneText, letterText, easting, northing] = utmGrammar.exec(text) ?? [];
  const letter = letterText?.toUpperCase() ?? '';
  const zone = Number(zoneText);
  if (!(zone >= 1 && zone <= 60) || !/[C-HJ-NP-X]/.test(letter)) return [];
  const place = { zone, eastingM: Number(easting), northingM: Number(northing) };
  const read = (isNorth: boolean, assumed: string, band: string | null): Reading[] => {
    const position = fromUtm({ ...place, isNorth });
    // Whole metres may have rounded a place over its band's edge.
    const found = [position[1] - 1e-5, position[1] + 1e-5].map(bandOf);
    const fits = found.some((each) =>
      band === null ? each !== null && isNorthBand(each) === isNorth : each === band,
    );
    return fits ? [{ position, notation: 'utm', assumed }] : [];
  };
  const asBand = read(isNorthBand(letter), '', letter);
  if (letter === 'N') return asBand.length > 0 ? asBand : read(true, 'N is the northern half', null);
  if (letter === 'S')
    return [
      ...asBand.map((reading) => ({ ...reading, assumed: 'S is the band from 32 to 40 north' })),
      ...read(false, 'S is the southern half', null),
    ];
  return asBand;
}

const number = String.raw`[-+\u2212]?\d{1,3}(?:[.,]\d+)?`;
const angle = String.raw`(${number})\s*(?:°|º|deg)?\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*['′’]\s*)?(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:"|″|''|”)\s*)?`;
const lettersAfter = new RegExp(String.raw`^${angle}\s*([NSEW])\s*[,;/]?\s*${angle}\s*([NSEW])$`, 'i');
const lettersBefore = new RegExp(String.raw`^([NSEW])\s*${angle}\s*[,;/]?\s*([NSEW])\s*${angle}$`, 'i');
const noLetters = new RegExp(String.raw`^${angle}(?:\s*[,;/]\s*|\s+)${angle}$`, 'i');

function fromDegrees(text: string): Reading[] {
  const after = lettersAfter.exec(text);
  if (after) return lettered(after.slice(1, 4), after[4], after.slice(5, 8), after[8]);
  const before = lettersBefore.exec(text);
  if (before) return lettered(before.slice(2, 5), before[1], before.slice(6, 9), before[5]);
  const plain = noLetters.exec(text);
  if (!plain) return [];
  const [first, second] = [degreesOf(plain.slice(1, 4)), degreesOf(plain.slice(4, 7))];
  const notation = notationOf(plain.slice(1, 7));
  return [
    ...reading(second, first, notation, 'latitude first'),
    ...reading(first, second, notation, 'longitude first'),
  ];
}

type Parts = readonly (string | undefined)[];

function lettered(a: Parts, aLetter = '', b: Parts, bLetter = ''): Reading[] {
  const [first, second] = [aLetter.toUpperCase(), bLetter.toUpperCase()];
  const isLat = (letter: string) => letter === 'N' || letter === 'S';
  if (isLat(first) === isLat(second)) return [];
  const signed = (parts: Parts, letter: string) => {
    const deg = degreesOf(parts);
    // A sign and a letter together say two things.
    return /^[-+\u2212]/.test(parts[0]!) ? NaN : letter === 'S' || letter === 'W' ? -deg : deg;
  };
  const [one, two] = [signed(a, first), signed(b, second)];
  const notation = notationOf([...a, ...b]);
  return isLat(first) ? reading(two, one, notation, '') : reading(one, two, notation, '');
}

function reading(lngDeg: number, latDeg: number, notation: Notation, assumed: string): Reading[] {
  const isPlace = Math.abs(latDeg) <= 90 && Math.abs(lngDeg) <= 180;
  return isPlace ? [{ position: [lngDeg, latDeg], notation, assumed }] : [];
}

const notationOf = ([, aMinutes, , , bMinutes]: Parts): Notation =>
  aMinutes === undefined && bMinutes === undefined ? 'decimal-degrees' : 'degrees-minutes-seconds';

/** NaN where minutes or seconds are 60 or more, or a broken figure is followed by a finer one. */
function degreesOf([whole = '', minutes, seconds]: Parts): number {
  const value = (text: string | undefined) => Number((text ?? '0').replace(',', '.').replace('\u2212', '-'));
  const isBroken = (text: string | undefined) => /[.,]/.test(text ?? '');
  const finer = minutes !== undefined || seconds !== undefined;
  const isWrong =
    value(minutes) >= 60 ||
    value(seconds) >= 60 ||
    (isBroken(whole) && finer) ||
    (isBroken(minutes) && seconds !== undefined);
  if (isWrong) return NaN;
  const size = Math.abs(value(whole)) + value(minutes) / 60 + value(seconds) / 3600;
  return /^[-\u2212]/.test(whole) ? -size : size;
}
