/** What a climber does. `stance` and `handover` are the lead's, for the whole team. */
export const paceActs = [
  'place',
  'clip',
  'remove',
  'walk',
  'follow',
  'stance',
  'handover',
  'anchor',
  'change',
  'prepare',
] as const;
export type PaceAct = (typeof paceActs)[number];

/** One line of the log: a climber walks, or stands and does something. Climbers by their index in the party. */
export interface PaceEvent {
  readonly who: number;
  readonly what: PaceAct;
  readonly fromS: number;
  readonly toS: number;
  /** Where the climber is at the beginning and at the end, metres from the start of the stretch, along the slope. */
  readonly fromM: number;
  readonly toM: number;
  /** The piece it is about, metres from the start of the stretch along the slope; absent where it is about none. */
  readonly pieceM?: number;
}
