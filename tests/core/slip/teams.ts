import fc from 'fast-check';
import { between } from '../../evenly-drawn';
import { defaultFigures, type Figures } from '../../../src/core/assumptions/figures';
import { abilities, defaultParty, type Ability, type Party } from '../../../src/core/domain/rope-team';
import { hardnesses, wetnesses, type Hardness, type Snow } from '../../../src/core/domain/snow';
import { variants } from '../../../src/core/domain/mode';

/** All 90 kg on 60 m of rope, 12 m apart. */
export const teamOf = (...members: readonly Ability[]): Party => ({
  ...defaultParty,
  climbers: members.map((ability, i) => ({ name: `${i}`, massKg: 90, ability, mayLead: i === 0 })),
});

export const dry = (hardness: Hardness): Snow => ({ hardness, wetness: 'D' });

/** Strength of pieces times a factor, up to no limit of the hardware if asked. */
export function withStrength(figures: Figures, factor: number, hardwareKN?: number): Figures {
  const snow = Object.fromEntries(
    hardnesses.map((h) => [h, { ...figures.snow[h], pieceKN: figures.snow[h].pieceKN * factor }]),
  ) as unknown as Figures['snow'];
  return {
    ...figures,
    snow,
    piece: { ...figures.piece, ...(hardwareKN === undefined ? {} : { hardwareKN }) },
  };
}

/** Pieces, devices and anchors that nothing breaks. */
export const unbreakable: Figures = {
  ...defaultFigures,
  snow: Object.fromEntries(
    hardnesses.map((h) => [h, { ...defaultFigures.snow[h], pieceKN: 1e9 }]),
  ) as unknown as Figures['snow'],
  piece: { ...defaultFigures.piece, hardwareKN: 1e9, captureDeviceKN: 1e9, anchorMaxKN: 1e9 },
};

const climber = fc.record({
  name: fc.constant(''),
  massKg: between(40, 130),
  ability: fc.constantFrom(...abilities),
  mayLead: fc.boolean(),
});

/** Two to five people of any weight and ability on any usual rope. */
export const anyParty: fc.Arbitrary<Party> = fc.record({
  climbers: fc.array(climber, { minLength: 2, maxLength: 5 }),
  rope: fc.record({
    lengthM: between(30, 70),
    intervalM: between(4, 25),
    impactForceKN: between(6, 12),
    staticElongationPct: between(4, 12),
    brakeKnots: fc.constant(false),
    half: fc.boolean(),
    lowStretch: fc.boolean(),
  }),
  rack: fc.record({
    pickets: fc.integer({ min: 0, max: 8 }),
    captureDevices: fc.integer({ min: 0, max: 6 }),
  }),
});

export const anySnow: fc.Arbitrary<Snow> = fc.record({
  hardness: fc.constantFrom(...hardnesses),
  wetness: fc.constantFrom(...wetnesses),
});

/** Everything a figure depends on but the slope; few slips, for laws that hold slip by slip. */
export const anyWay = fc.record({
  party: anyParty,
  snow: anySnow,
  variant: fc.constantFrom(...variants),
  betaDeg: between(0, 90),
  goingDown: fc.boolean(),
  slipsPerClimber: fc.constant(64),
});

export const anySlopeDeg = between(0, 60);
