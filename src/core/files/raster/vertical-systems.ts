/**
 * Vertical systems whose axis is not metres upwards (EPSG dataset 10.076, by `projinfo --list-crs vertical` and the axis
 * that `projinfo -o PROJJSON EPSG:n` gives). Beside them, those that are.
 */
const feetUp: Readonly<Record<number, number>> = {
  5702: 1200 / 3937,
  5754: 0.3048007491,
  6130: 0.3048,
  6131: 0.3048,
  6132: 0.3048,
  6360: 1200 / 3937,
  8050: 0.3048,
  8052: 1200 / 3937,
  8228: 0.3048,
};

const depths: ReadonlySet<number> = new Set([
  5336, 5612, 5614, 5706, 5715, 5734, 5739, 5789, 5831, 5861, 5862, 5863, 5864, 5865, 5866, 5867, 5873, 6357,
  6358, 6359, 7976, 8051, 8053, 8358, 8378, 8897, 9287, 9288, 9672,
]);

/** Those with metres upwards: codes and runs of codes. */
const metresUp = `
  3855 3886 3900 4440 4458 5193 5195 5214 5237 5317 5597 5600-5611 5613 5615-5621 5701 5703-5705
  5709-5714 5716-5733 5735-5738 5740-5753 5755-5788 5790-5799 5829 5843 5868-5872 5874 5941 6178-6187
  6638-6644 6647 6693-6695 6916 7446-7447 7651-7652 7699-7700 7707 7832 7837 7839 7841 7888-7890 7962
  7968 7979 8089 8266-8267 8357 8434 8675 8690-8691 8841 8881 8904 8911 9130 9245 9255 9274 9279 9303
  9335 9351 9389-9390 9392-9402 9451 9458 9471 9650-9651 9663 9666 9669 9675 9681 9721-9722 9923 9927
  20000 20034-20036`;

/** Metres per unit of a vertical system by its EPSG code; null for a code that names no vertical system upwards. */
export function metresOfVerticalSystem(code: number): number | null {
  const isMetres = metresUp
    .trim()
    .split(/\s+/)
    .map((run) => run.split('-').map(Number))
    .some(([first = NaN, last = first]) => code >= first && code <= last);
  return isMetres ? 1 : (feetUp[code] ?? null);
}

export const isDepth = (code: number) => depths.has(code);
