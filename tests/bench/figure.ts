/**
 * A figure that is promised: printed as `name value unit limit ok|short|not-measured`. `value` is null where it could not be
 * measured here, and `why` says what is missing.
 */
export interface Figure {
  readonly name: string;
  readonly value: number | null;
  readonly unit: string;
  readonly limit: { readonly atLeast: number } | { readonly atMost: number } | null;
  readonly why?: string;
}

export type Figures = () => Promise<readonly Figure[]>;

export function figureLine({ name, value, unit, limit, why }: Figure): string {
  const bound = limit === null ? '-' : 'atLeast' in limit ? `>=${limit.atLeast}` : `<=${limit.atMost}`;
  const shown = value === null ? '-' : Number.isInteger(value) ? String(value) : value.toPrecision(4);
  return [name, shown, unit, bound, verdict({ name, value, unit, limit }), why ?? ''].join(' ').trimEnd();
}

export function verdict({ value, limit }: Figure): 'ok' | 'short' | 'not-measured' {
  if (value === null || !Number.isFinite(value)) return 'not-measured';
  if (limit === null) return 'ok';
  return ('atLeast' in limit ? value >= limit.atLeast : value <= limit.atMost) ? 'ok' : 'short';
}

/** The middle of several timings of the same work, milliseconds. */
export async function medianMs(runs: number, work: () => unknown): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    const startMs = performance.now();
    await work();
    times.push(performance.now() - startMs);
  }
  return times.sort((a, b) => a - b)[runs >> 1] ?? NaN;
}
