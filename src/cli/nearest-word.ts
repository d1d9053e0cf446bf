/** The word of a list that a mistyped one most likely meant: at most a third of its letters wrong; null: none is near. */
export function nearestWord(typed: string, known: readonly string[]): string | null {
  let best: { readonly word: string; readonly edits: number } | null = null;
  for (const word of known) {
    const edits = editsBetween(typed.toLowerCase(), word);
    if (edits <= Math.max(1, word.length / 3) && (best === null || edits < best.edits))
      best = { word, edits };
  }
  return best?.word ?? null;
}

/** Letters to put in, take out or change (Levenshtein 1966). */
function editsBetween(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (const [i, letter] of [...a].entries()) {
    const next = [i + 1];
    for (let j = 1; j <= b.length; j++) {
      const changed = (row[j - 1] ?? 0) + (letter === b[j - 1] ? 0 : 1);
      next.push(Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, changed));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
