import type { PaceAct, PaceEvent } from '../../core/pace/pace-event';

/** The team at one moment of a stretch. Metres along the line. */
export interface TeamAt {
  readonly climbers: readonly { readonly atM: number; readonly act: PaceAct | null }[];
  /** Pieces that are in the snow. */
  readonly piecesM: readonly number[];
}

/** When the last thing in a log is done; 0 for an empty one. */
export const lengthOfLogS = (events: readonly PaceEvent[]): number =>
  events.reduce((latest, { toS }) => Math.max(latest, toS), 0);

/** Where everybody is, what they are doing, and which pieces hold, at a moment of the log. */
export function teamAt(events: readonly PaceEvent[], climberCount: number, atS: number): TeamAt {
  const latest: (PaceEvent | undefined)[] = Array.from({ length: climberCount });
  const pieces = new Map<number, boolean>();
  for (const event of events) {
    const before = latest[event.who];
    const isEarlier = before === undefined || event.fromS >= before.fromS;
    if (event.fromS <= atS && isEarlier) latest[event.who] = event;
    if (event.toS <= atS && event.pieceM !== undefined) {
      if (event.what === 'place') pieces.set(event.pieceM, true);
      if (event.what === 'remove') pieces.set(event.pieceM, false);
    }
  }
  return {
    climbers: latest.map((event, who) => {
      const first = event ?? events.find((one) => one.who === who);
      if (!event) return { atM: first?.fromM ?? 0, act: null };
      if (atS >= event.toS) return { atM: event.toM, act: null };
      const share = (atS - event.fromS) / (event.toS - event.fromS);
      return { atM: event.fromM + share * (event.toM - event.fromM), act: event.what };
    }),
    piecesM: [...pieces].filter(([, isIn]) => isIn).map(([pieceM]) => pieceM),
  };
}

export const actName: Readonly<Record<PaceAct, string>> = {
  place: 'places a piece',
  clip: 'clips past',
  remove: 'removes a piece',
  walk: 'moves',
  follow: 'follows',
  stance: 'makes a stance',
  handover: 'hands over',
  anchor: 'builds an anchor',
  change: 'changes over',
  prepare: 'prepares the crossing',
};
