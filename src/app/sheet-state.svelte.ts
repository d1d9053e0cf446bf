import type { SheetData } from '../core/sheet/sheet-data';
import { localIso } from './local-time';
import type { Session } from './session.svelte';

type View = (typeof import('./SheetView.svelte'))['default'];

/** The sheet while it is looked at: made from the whole plan each time it is opened. */
export class SheetState {
  isOpen = $state(false);
  /** null: being made. */
  data = $state.raw<SheetData | null>(null);
  /** The map as it was shown, a PNG as a data URL. */
  picture = $state.raw<string | null>(null);
  /** The part of the program that shows it, fetched when first needed. */
  View = $state.raw<View | null>(null);

  constructor(
    readonly session: Session,
    readonly mapPicture: () => Promise<string> | null,
  ) {}

  async open(thenPrint = false): Promise<void> {
    const { session } = this;
    const { figures, units } = session;
    if (!session.plan) return;
    this.data = null;
    const showing = import('./SheetView.svelte');
    this.picture = await this.mapPicture();
    this.View = (await showing).default;
    this.isOpen = true;
    try {
      const madeAt = localIso(Date.now());
      this.data = await session.withWholePlan('Making the sheet', (project, options) =>
        session.engines.plan.ask('makeSheet', { project, figures, units, madeAt }, options),
      );
      if (thenPrint && this.data) setTimeout(() => window.print());
    } catch (reason) {
      this.isOpen = false;
      session.voice.trouble(reason, 'the sheet');
    }
  }

  close(): void {
    this.isOpen = false;
  }
}
