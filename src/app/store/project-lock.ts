/** The right to write to a project, held by one tab at a time. */
export interface ProjectLock {
  release(): void;
}

/**
 * @param steal takes it from the tab that holds it, which hears of it by `onLost`.
 * @returns null where another tab holds it. A browser without locks gives it to everyone: then only the journal's own count of
 * writes keeps one tab from writing over another.
 */
export async function takeProject(
  id: string,
  onLost: () => void,
  steal = false,
): Promise<ProjectLock | null> {
  if (!navigator.locks) return { release() {} };
  return new Promise((resolve) => {
    let isHeld = false;
    const hold = (lock: Lock | null) => {
      if (lock === null) {
        resolve(null);
        return;
      }
      isHeld = true;
      return new Promise<void>((release) =>
        resolve({
          release() {
            isHeld = false;
            release();
          },
        }),
      );
    };
    navigator.locks
      .request(`firnward-project-${id}`, steal ? { steal } : { ifAvailable: true }, hold)
      .catch(() => {
        if (isHeld) onLost();
        else resolve(null);
      });
  });
}
