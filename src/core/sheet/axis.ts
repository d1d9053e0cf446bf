/** A straight scale from data to pixels and back. */
export interface Scale {
  toPx(value: number): number;
  fromPx(px: number): number;
}

/** A domain of no width maps to the range's middle. */
export function linearScale(
  [from, to]: readonly [number, number],
  [fromPx, toPx]: readonly [number, number],
): Scale {
  const span = to - from;
  return {
    toPx: (value) => (span === 0 ? (fromPx + toPx) / 2 : fromPx + ((value - from) / span) * (toPx - fromPx)),
    fromPx: (px) => (toPx === fromPx ? from : from + ((px - fromPx) / (toPx - fromPx)) * span),
  };
}

/** Round values (1, 2 or 5 times a power of ten) within the domain, about `count` of them. */
export function roundTicks(from: number, to: number, count: number): number[] {
  const span = to - from;
  if (!(span > 0) || count < 1) return [];
  const rough = span / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= rough * 0.999)!;
  return multiples(from, to, step);
}

const timeStepsS = [60, 120, 300, 600, 900, 1800, 3600, 7200, 10_800, 21_600, 43_200, 86_400];

/** Round times, seconds. */
export function timeTicks(fromS: number, toS: number, count: number): number[] {
  const rough = (toS - fromS) / Math.max(1, count);
  return multiples(fromS, toS, timeStepsS.find((s) => s >= rough) ?? 86_400);
}

function multiples(from: number, to: number, step: number): number[] {
  const ticks: number[] = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; k++) ticks.push(k * step + 0);
  return ticks;
}
