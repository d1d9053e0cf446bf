import type { Draft } from './entry';

export const slopeDrafts: readonly Draft[] = [
  {
    key: 'slope.spreadDeg',
    label: 'Least spread of the slope (one standard deviation)',
    min: 0,
    max: 10,
    source: 'judgement',
  },
  {
    key: 'slope.easyBelowDeg',
    label: 'Slope below which more and more people stop by themselves',
    min: 0,
    max: 45,
    source: 'judgement',
  },
  {
    key: 'slope.easyOverDeg',
    label: 'Degrees below that until everybody does',
    min: 1,
    max: 45,
    source: 'judgement',
  },
].map((draft) => ({ ...draft, group: 'Slope', unit: '°' }));

const practice = { group: 'Rules', unit: '°', min: 0, max: 90, source: 'common practice' };

export const ruleDrafts: readonly Draft[] = [
  { ...practice, key: 'rule.ropedAlwaysBelowDeg', label: 'Roped travel always stands below', max: 30 },
  { ...practice, key: 'rule.pitchedOnlyFromDeg', label: 'Only a pitched belay from', min: 20, max: 70 },
  { ...practice, key: 'rule.noneAboveDeg', label: 'No mode holds above', min: 30, max: 70 },
  { ...practice, key: 'rule.iceRopedUpToDeg', label: 'Roped travel on bare ice up to', max: 35 },
  {
    ...practice,
    key: 'rule.deadlyEasesFromDeg',
    label: 'Tolerance above a deadly run-out eases below',
    max: 40,
    source: 'judgement: slips are rarer on gentle ground',
  },
  {
    ...practice,
    key: 'rule.deadlyEasesToDeg',
    label: 'It is eased fully at',
    max: 40,
    source: 'judgement: slips are rarer on gentle ground',
  },
  {
    ...practice,
    key: 'rule.counterMateMu',
    label: 'Friction of a surprised mate who is dragged up to a piece',
    unit: '',
    max: 2,
    source: 'judgement',
  },
];

const way = { group: 'Run-out', unit: '°', min: 0, max: 90, source: 'judgement' };

export const runOutDrafts: readonly Draft[] = [
  { ...way, key: 'runOut.gentleMaxMS', label: 'Gentle: never faster than', unit: 'm/s', max: 30 },
  { ...way, key: 'runOut.injuringMaxMS', label: 'Injuring: never faster than', unit: 'm/s', max: 50 },
  { ...way, key: 'runOut.dropSlopeDeg', label: 'A drop is steeper than', min: 30 },
  { ...way, key: 'runOut.dropLengthM', label: 'A drop is longer than', unit: 'm', max: 50 },
  { ...way, key: 'runOut.hazardReachM', label: 'A marked hazard catches within', unit: 'm', max: 100 },
  { ...way, key: 'runOut.turnDeg', label: 'The two side traces turn by', max: 45 },
  { ...way, key: 'runOut.easeFromDeg', label: 'People begin to stop themselves below', max: 45 },
  { ...way, key: 'runOut.easeOverDeg', label: 'Degrees below that until they brake fully', min: 1, max: 45 },
];

const raster = { group: 'Ground', unit: 'm', min: 0, max: 100, source: 'judgement' };
const hidden = {
  ...raster,
  unit: '°',
  max: 20,
  source:
    'derived: a 20 m step at 45° in a 20° slope reads 30° on 30 m cells; slopes flatten with the cell (Chang and Tsai 1991)',
};
const vertical = {
  ...raster,
  min: 0.01,
  max: 50,
  source: 'judgement among published accuracies, for data whose own is not known',
};

export const groundDrafts: readonly Draft[] = [
  { ...raster, key: 'ground.coarseFromM', label: 'Cells are coarse from' },
  { ...raster, key: 'ground.middleFromM', label: 'Cells are middling from' },
  { ...hidden, key: 'ground.coarseAddDeg', label: 'Added to the slope on coarse cells' },
  { ...hidden, key: 'ground.middleAddDeg', label: 'Added to the slope on middling cells' },
  { ...hidden, key: 'ground.fineAddDeg', label: 'Added to the slope on fine cells' },
  { ...hidden, key: 'ground.addFromDeg', label: 'Nothing is added below', max: 45, source: 'judgement' },
  { ...vertical, key: 'ground.coarseSigmaZM', label: 'Vertical standard error of coarse cells' },
  { ...vertical, key: 'ground.middleSigmaZM', label: 'Vertical standard error of middling cells' },
  { ...vertical, key: 'ground.fineSigmaZM', label: 'Vertical standard error of fine cells' },
  { ...raster, key: 'ground.seamJumpM', label: 'Step between neighbouring rasters that is warned of' },
];
