import { spreadDrafts, type Draft } from './entry';

const rope = { group: 'Rope', unit: 'm', min: 0, max: 10, source: 'judgement' };

export const ropeDrafts: readonly Draft[] = [
  {
    ...rope,
    key: 'rope.carabinerRatio',
    label: 'Tension behind a carabiner, full turn, over tension before it',
    unit: '',
    min: 0.3,
    max: 1,
    source: 'commonly printed 0.52 to 0.66; the measurements were not seen',
  },
  {
    ...rope,
    key: 'rope.testFallFactor',
    label: 'Fall factor of the standard rope test',
    unit: '',
    min: 1.7,
    max: 1.8,
    source: 'EN 892; printed as 1.71 to 1.78',
  },
  ...spreadDrafts('rope.slackM', 'Slack between neighbours', rope),
  ...spreadDrafts('rope.belayedSlackM', 'Slack towards a belayer', rope),
  ...spreadDrafts('rope.reactionS', 'Time until a slipper begins to arrest', {
    ...rope,
    unit: 's',
    source: 'judgement after reaction times to unexpected events (Green 2000, from memory)',
  }),
  {
    ...rope,
    key: 'rope.modulusMode',
    label: 'Likeliest rope modulus, from its slow value (0) to the label’s (1)',
    unit: '',
    min: 0,
    max: 1,
  },
  ...spreadDrafts('rope.lowStretchModulusKN', 'Modulus of a low-stretch cord', {
    ...rope,
    unit: 'kN',
    min: 10,
    max: 500,
    source: 'judgement within 60 to 200 kN, from memory',
  }),
];

const pitch = { group: 'Pitches', unit: 'm', min: 0, max: 20, source: 'common practice' };

export const pitchDrafts: readonly Draft[] = [
  { ...pitch, key: 'pitch.maxM', label: 'Longest pitch', min: 5, max: 100 },
  { ...pitch, key: 'pitch.ropeReserveM', label: 'Rope kept for ties and anchor' },
  { ...pitch, key: 'pitch.ropePerClimberM', label: 'Rope each climber between the ends takes' },
  { ...pitch, key: 'pitch.runnerM', label: 'Distance between runners', min: 2, max: 50 },
  { ...pitch, key: 'pitch.followersApartM', label: 'Distance of followers climbing together' },
];
