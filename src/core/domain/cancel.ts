/** Tells long work to stop. An AbortSignal is one. */
export interface Cancel {
  readonly aborted: boolean;
  throwIfAborted(): void;
}
