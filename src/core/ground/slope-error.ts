import type { Figures } from '../assumptions/figures';

type GroundFigures = Figures['ground'];

/** Vertical standard error to take where nobody named one, metres. Judgement from published raster accuracies. */
export function usualSigmaZM(cellM: number, ground: GroundFigures): number {
  if (cellM >= ground.coarseFromM) return ground.coarseSigmaZM;
  return cellM >= ground.middleFromM ? ground.middleSigmaZM : ground.fineSigmaZM;
}

/**
 * One standard deviation of a Horn slope, degrees: cos^2(slope) * sqrt(3)/4 * sigma_z / cell.
 *
 * @source first-order propagation of independent vertical errors through Horn's weights; cf. I.V. Florinsky, "Accuracy
 * of local topographic variables derived from digital elevation models", Int. J. GIS 12 (1998) 47-61.
 */
export function slopeSigmaDeg(slopeDeg: number, cellM: number, sigmaZM: number): number {
  const cos = Math.cos((slopeDeg * Math.PI) / 180);
  return ((cos * cos * (Math.sqrt(3) / 4) * sigmaZM) / cellM) * (180 / Math.PI);
}

/**
 * Slope to decide on: raw slope plus what cells of this size hide (a 20 m headwall of 45 degrees in a slope of 20 reads 30
 * on cells of 30 m). Never more than what the raw slope exceeds 15 degrees is added. Judgement.
 */
export function designSlopeDeg(slopeDeg: number, cellM: number, ground: GroundFigures): number {
  const hidden =
    cellM >= ground.coarseFromM
      ? ground.coarseAddDeg
      : cellM >= ground.middleFromM
        ? ground.middleAddDeg
        : ground.fineAddDeg;
  return slopeDeg + Math.max(0, Math.min(hidden, slopeDeg - ground.addFromDeg));
}
