/**
 * Keeps the page on this device for the next start, with or without a network. Only of the built page: while developing, old
 * files would hide new ones.
 */
export function keepOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  void navigator.serviceWorker.register('./sw.js').catch(() => {
    // A private window or a file address: the page works all the same while it is open.
  });
}
