import fc from 'fast-check';
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
  massKg: fc.double({ min: 40, max: 130, noNaN: true }),
  ability: fc.constantFrom(...abilities),
  mayLead: fc.boolean(),
});

/** Two to five people of any weight and ability on any usual rope. */
export const anyParty: fc.Arbitrary<Party> = fc.record({
  climbers: fc.array(climber, { minLength: 2, maxLength: 5 }),
  rope: fc.record({
    lengthM: fc.double({ min: 30, max: 70, noNaN: true }),
    intervalM: fc.double({ min: 4, max: 25, noNaN: true }),
    impactForceKN: fc.double({ min: 6, max: 12, noNaN: true }),
    staticElongationPct: fc.double({ min: 4, max: 12, noNaN: true }),
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
  betaDeg: fc.double({ min: 0, max: 90, noNaN: true }),
  goingDown: fc.boolean(),
  slipsPerClimber: fc.constant(64),
});

export const anySlopeDeg = fc.double({ min: 0, max: 60, noNaN: true });
