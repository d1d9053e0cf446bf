/** Keeps the screen lit while it is asked to, where the browser can. */
export class ScreenAwake {
  readonly isPossible = 'wakeLock' in navigator;
  isOn = $state(false);
  #lock: WakeLockSentinel | null = null;

  async set(isOn: boolean): Promise<void> {
    this.isOn = isOn;
    if (isOn) {
      document.addEventListener('visibilitychange', this.#again);
      await this.#take();
    } else {
      document.removeEventListener('visibilitychange', this.#again);
      await this.#lock?.release();
      this.#lock = null;
    }
  }

  /** The browser lets go of the screen whenever the page is hidden. */
  readonly #again = (): void => {
    if (document.visibilityState === 'visible') void this.#take();
  };

  async #take(): Promise<void> {
    try {
      this.#lock = await navigator.wakeLock.request('screen');
    } catch {
      this.isOn = false;
    }
  }
}
