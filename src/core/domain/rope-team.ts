export const abilities = ['expert', 'solid', 'learning', 'unreliable'] as const;
export type Ability = (typeof abilities)[number];

export const abilityName: Readonly<Record<Ability, string>> = {
  expert: 'expert',
  solid: 'solid',
  learning: 'learning',
  unreliable: 'cannot be counted on',
};

export interface Climber {
  readonly name: string;
  readonly massKg: number;
  readonly ability: Ability;
  readonly mayLead: boolean;
}

export interface Rope {
  readonly lengthM: number;
  /** Rope between neighbours. */
  readonly intervalM: number;
  /** As on the label: a fall of 80 kg, of 55 kg on a half rope (EN 892). */
  readonly impactForceKN: number;
  readonly staticElongationPct: number;
  readonly brakeKnots: boolean;
  /** A half rope, used as the only one. */
  readonly half: boolean;
  /** Low-stretch cord: bars lead falls on pieces. */
  readonly lowStretch: boolean;
}

export interface Rack {
  readonly pickets: number;
  readonly captureDevices: number;
}

/** Order in `climbers` is the order on the rope, lead first. */
export interface Party {
  readonly climbers: readonly Climber[];
  readonly rope: Rope;
  readonly rack: Rack;
}

export const defaultParty: Party = {
  climbers: [
    { name: 'A', massKg: 90, ability: 'expert', mayLead: true },
    { name: 'B', massKg: 90, ability: 'solid', mayLead: false },
    { name: 'C', massKg: 90, ability: 'solid', mayLead: false },
  ],
  rope: {
    lengthM: 60,
    intervalM: 12,
    impactForceKN: 9,
    staticElongationPct: 8,
    brakeKnots: false,
    half: false,
    lowStretch: false,
  },
  rack: { pickets: 3, captureDevices: 0 },
};

/** Least and most of a team: what a form takes, which is what ropes and people are like, and how far a project file may go. */
export const partyLimits = {
  climbers: { form: [1, 8], file: [1, 12] },
  massKg: { form: [30, 180], file: [20, 250] },
  ropeLengthM: { form: [20, 120], file: [5, 200] },
  intervalM: { form: [3, 60], file: [1, 100] },
  impactForceKN: { form: [4, 15], file: [3, 20] },
  staticElongationPct: { form: [1, 15], file: [0.5, 30] },
  pieces: { form: [0, 30], file: [0, 99] },
} as const;
