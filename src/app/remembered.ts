/** Small habits of the reader, kept on this device: the look, the units; that projects are kept here. Nothing of the plan. */
export type Habit = 'theme' | 'units' | 'greeted' | 'keeps';

const keyOf = (habit: Habit): string => `firnward-${habit}`;

/** null: not said yet, or the browser keeps nothing. */
export function remembered(habit: Habit): string | null {
  try {
    return localStorage.getItem(keyOf(habit));
  } catch {
    return null;
  }
}

export function remember(habit: Habit, value: string): void {
  try {
    localStorage.setItem(keyOf(habit), value);
  } catch {
    // The browser keeps nothing: the habit lasts as long as the page.
  }
}
