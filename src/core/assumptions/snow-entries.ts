import { abilities, abilityName } from '../domain/rope-team';
import { hardnesses, hardnessName } from '../domain/snow';
import { spreadDrafts, type Draft } from './entry';

const slidingSource =
  'judgement between published values: fabrics on snow 0.19 to 0.48 (Nachbauer et al. 2016, Lubricants 4(1):7); ' +
  'firn at 40 degrees near free fall, 0.03 (trials of the Austrian Alpine Club)';

const strengthSource =
  'judgement among field pulls (Bogie and Fortini, ISSW 2010; Fortini, ITRS 2005) and pressure decades by hand hardness ' +
  '(Colbeck et al. 1990, from memory)';

export const snowDrafts: readonly Draft[] = hardnesses.flatMap((hardness): Draft[] => {
  const group = 'Snow';
  const snow = `snow ${hardness} (${hardnessName[hardness]})`;
  return [
    ...spreadDrafts(`snow.${hardness}.muSliding`, `Friction of a slide in ${snow}`, {
      group,
      unit: '',
      min: 0,
      max: 1.5,
      source: slidingSource,
    }),
    ...spreadDrafts(`snow.${hardness}.muArresting`, `Friction while arresting in ${snow}`, {
      group,
      unit: '',
      min: 0,
      max: 3,
      source: 'judgement: no measured deceleration on an axe was found',
    }),
    {
      group,
      key: `snow.${hardness}.pieceKN`,
      label: `Median strength of the best placement in ${snow}`,
      unit: 'kN',
      min: 0,
      max: 20,
      source: strengthSource,
    },
  ];
});

export const pieceDrafts: readonly Draft[] = [
  {
    key: 'piece.sigmaLn',
    label: 'Spread of piece strength (standard deviation of its logarithm)',
    unit: '',
    min: 0,
    max: 1.5,
    source: 'judgement',
  },
  {
    key: 'piece.hardwareKN',
    label: 'Most a picket and its sling bear',
    unit: 'kN',
    min: 1,
    max: 20,
    source: 'table of a mountaineering course: pickets may bend between 4 and 6.4 kN',
  },
  {
    key: 'piece.wetFactor',
    label: 'Strength factor when very wet or soaked',
    unit: '',
    min: 0,
    max: 1,
    source: 'judgement',
  },
  {
    key: 'piece.anchorFactor',
    label: 'Anchor of two pieces, times one piece',
    unit: '',
    min: 1,
    max: 2,
    source: 'judgement',
  },
  {
    key: 'piece.anchorMaxKN',
    label: 'Most an anchor of two pieces bears',
    unit: 'kN',
    min: 1,
    max: 30,
    source: 'judgement',
  },
  {
    key: 'piece.captureDeviceKN',
    label: 'Most a rope capture device bears on the rope',
    unit: 'kN',
    min: 0.5,
    max: 12,
    source: 'EN 567:2013, UIAA 126: rope clamps are tested at 4 kN',
  },
].map((draft) => ({ ...draft, group: 'Pieces' }));

export const abilityDrafts: readonly Draft[] = abilities.flatMap((ability): Draft[] => {
  const traits = { group: 'People', unit: '', min: 0, max: 1, source: 'judgement' };
  const who = abilityName[ability];
  return [
    { ...traits, key: `ability.${ability}.arrests`, label: `Share of own slips arrested in time (${who})` },
    { ...traits, key: `ability.${ability}.readyWhenPulled`, label: `Share of pulls met ready (${who})` },
    {
      ...traits,
      key: `ability.${ability}.slips`,
      label: `Slips, compared with an expert (${who})`,
      min: 0.1,
      max: 100,
    },
  ];
});
