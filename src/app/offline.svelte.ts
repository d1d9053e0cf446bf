/** A newer page that waits behind this one, and never takes its place unasked. */
export class NewVersion {
  isReady = $state(false);
  /** Everything the page needs lies on this device. */
  isOffline = $state(false);
  #waiting: ServiceWorker | null = null;

  /**
   * Keeps the page on this device for the next start, with or without a network. Only of the built page: while developing, old
   * files would hide new ones.
   */
  async watch(): Promise<void> {
    if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
    try {
      const registration = await navigator.serviceWorker.register('./sw.js');
      this.#found(registration);
      registration.addEventListener('updatefound', () => {
        registration.installing?.addEventListener('statechange', () => this.#found(registration));
      });
      await navigator.serviceWorker.ready;
      this.isOffline = true;
    } catch {
      // A private window or a file address: the page works all the same while it is open.
    }
  }

  /** Takes the newer page's files and opens it. Call when everything is saved. */
  use(): void {
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
    this.#waiting?.postMessage('take over');
  }

  #found({ waiting }: ServiceWorkerRegistration): void {
    // The first visit's worker takes over nothing.
    if (!waiting || !navigator.serviceWorker.controller) return;
    this.#waiting = waiting;
    this.isReady = true;
  }
}
