import { hardnesses, hardnessName } from '../domain/snow';
import type { Figures } from './figures';
import { rangeWords, spreadDrafts, type Draft } from './entry';

const unpublished = 'judgement: no published times for snow pieces were found';

const actLabel: Readonly<Record<keyof Figures['act'], string>> = {
  placeUpright: 'Place a piece upright, clipped at mid-length',
  placeUprightSlot: 'Place a piece upright in a cut slot',
  placeTSlot: 'Bury a piece in a T-slot',
  clip: 'Clip past a piece',
  removeUpright: 'Remove an upright piece',
  removeTSlot: 'Dig out a T-slot',
  stance: 'Take a stance on a piece',
  handover: 'Hand the pieces over',
  change: 'Change over at a stance, for each follower',
  knots: 'Tie or untie brake knots',
  interval: 'Change the interval on the rope',
  turnRound: 'Turn the team round',
  prepareCrossing: 'Prepare a belayed crossing, with its anchor',
};

export const actDrafts: readonly Draft[] = Object.entries(actLabel).flatMap(([act, label]) =>
  spreadDrafts(
    `act.${act}`,
    label,
    {
      group: 'Times of acts',
      unit: 's',
      min: 0,
      max: 3600,
      source: unpublished,
    },
    rangeWords,
  ),
);

const speedLabel: Readonly<Record<keyof Figures['speed'], string>> = {
  runningBelay: 'Speed on a running belay',
  pitchLead: 'Speed of the lead in a pitch',
  pitchFollow: 'Speed of a follower in a pitch',
  crossing: 'Speed over a belayed crossing',
};

export const speedDrafts: readonly Draft[] = Object.entries(speedLabel).flatMap(([speed, label]) =>
  spreadDrafts(
    `speed.${speed}`,
    label,
    {
      group: 'Speeds',
      unit: 'm/s',
      min: 0.01,
      max: 2,
      source: speed.startsWith('pitch') ? 'common practice: 30 m in 5 minutes, followed in 3' : 'judgement',
    },
    rangeWords,
  ),
);

const walking = { group: 'Walking', unit: '', min: 0, max: 10, source: 'judgement' };

export const walkingDrafts: readonly Draft[] = [
  {
    ...walking,
    key: 'walking.munterUp',
    label: 'Rate uphill, kilometres of effort an hour',
    min: 0.5,
    source: 'Munter’s rule: 4 on foot; judgement: 3 for a roped party',
  },
  {
    ...walking,
    key: 'walking.munterDown',
    label: 'Rate level and downhill, kilometres of effort an hour',
    min: 0.5,
    source: 'Munter’s rule: 6 on foot; judgement: 5 for a roped party',
  },
  {
    ...walking,
    key: 'walking.wiggleM',
    label: 'Ups and downs smaller than this are left out',
    unit: 'm',
    max: 50,
  },
  ...hardnesses.map((hardness) => ({
    ...walking,
    key: `walking.snowFactor.${hardness}`,
    label: `Time factor in snow ${hardness} (${hardnessName[hardness]})`,
    min: 0.5,
    max: 5,
    source: 'common practice: over the ankle 1.3, to the knee 2',
  })),
  {
    ...walking,
    key: 'walking.altitudeFromM',
    label: 'Altitude from which people slow down',
    unit: 'm',
    max: 6000,
    source: 'Buskirk 1967, from memory',
  },
  {
    ...walking,
    key: 'walking.altitudePctPer100M',
    label: 'Aerobic power lost for each 100 m above that',
    unit: '%',
    max: 3,
    source: 'Buskirk 1967, from memory; others 0.6 to 1.1',
  },
  {
    ...walking,
    key: 'walking.restMinPerH',
    label: 'Rests in each hour',
    unit: 'min',
    max: 30,
    source: 'common practice: 5 to 10; not counted unless set',
  },
  { ...walking, key: 'walking.lowFactor', label: 'Quick walking, times the default', min: 0.3, max: 1 },
  { ...walking, key: 'walking.highFactor', label: 'Slow walking, times the default', min: 1, max: 4 },
];
