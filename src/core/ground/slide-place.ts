import type { LngLat } from '../domain/coordinates';
import type { Mark } from '../domain/mark';
import { cellOfPosition, positionOfCell, type GroundScale } from './ground-scale';
import { HazardIndex } from './hazards';
import { SmoothSurface } from './smooth-surface';
import { outlineIn, type CellBox, type Layer, type Terrain } from './terrain';

/** A step is half a cell, but no longer than this, metres. */
const longestStepM = 10;

/** What stopped a step: nothing, the edge of all rasters, a hole in them, or a block that is not in memory. */
export type StepEnd = 'none' | 'edge' | 'hole' | 'not-in-memory';

interface Surroundings {
  readonly layer: Layer;
  readonly stepM: number;
  readonly hazards: HazardIndex;
  /** Where finer layers lie in this one's cells. */
  readonly finer: readonly CellBox[];
}

/**
 * Where a slide is: a place that moves over the terrain in steps, always on the finest layer whose smooth surface covers
 * it, with that surface's elevation and ground gradient there.
 */
export class SlidePlace {
  readonly #surroundings: readonly Surroundings[];
  readonly #surface = new SmoothSurface();
  #here: Surroundings | null = null;
  #scale: GroundScale | null = null;
  #col = NaN;
  #row = NaN;
  #from: Surroundings | null = null;
  #fromCol = NaN;
  #fromRow = NaN;
  /** Rise per metre. */
  gradE = NaN;
  gradN = NaN;
  slopeTan = NaN;
  /** Horizontal length of the steps here. */
  stepM = NaN;
  /** What the last step lost in height, metres; negative where it climbed. */
  dropM = NaN;

  constructor(
    readonly terrain: Terrain,
    marks: readonly Mark[],
    hazardReachM: number,
  ) {
    this.#surroundings = terrain.layers.map((layer, k) => {
      const stepM = Math.min(layer.raster.cellM / 2, longestStepM);
      return {
        layer,
        stepM,
        hazards: new HazardIndex(layer, marks, hazardReachM, stepM),
        finer: terrain.layers.slice(0, k).map((finer) => outlineIn(finer.raster, layer.raster)),
      };
    });
  }

  /** @returns false where there is no ground, or it is not in memory */
  start(position: LngLat): boolean {
    if (!this.#settle(position)) return false;
    this.#slope();
    return true;
  }

  /** One step of `stepM` towards a unit heading. */
  step(headingE: number, headingN: number): StepEnd {
    const here = this.#here!;
    const scale = this.#scale!;
    const { stepM } = here;
    const fromM = this.#surface.elevationM;
    this.#from = here;
    const risingM = (this.gradE * headingE + this.gradN * headingN) * stepM;
    this.#fromCol = this.#col;
    this.#fromRow = this.#row;
    this.#col += (headingE * scale.colPerEast + headingN * scale.colPerNorth) * stepM;
    this.#row += (headingE * scale.rowPerEast + headingN * scale.rowPerNorth) * stepM;
    if (isInAny(here.finer, this.#col, this.#row) || !this.#surface.read(here.layer, this.#col, this.#row)) {
      if (this.terrain.isWanting) return 'not-in-memory';
      const position = this.position();
      const isFound = this.#settle(position);
      if (this.terrain.isWanting) return 'not-in-memory';
      if (!isFound) {
        this.dropM = -risingM;
        return this.terrain.isInside(position) ? 'hole' : 'edge';
      }
    }
    if (this.#here === here) {
      this.dropM = fromM - this.#surface.elevationM;
    } else {
      // From one raster to the next: their heights need not fit, so this step falls as the ground it left does.
      this.dropM = -risingM;
      this.#from = this.#here;
      this.#fromCol = this.#col;
      this.#fromRow = this.#row;
    }
    this.#slope();
    return 'none';
  }

  /** Goes back to where the last step began. */
  stepBack(): void {
    const from = this.#from!;
    this.#here = from;
    this.#col = this.#fromCol;
    this.#row = this.#fromRow;
    this.#surface.read(from.layer, this.#col, this.#row);
    this.#slope();
  }

  /** Whether the last step came within reach of a hazard. */
  isCaught(): boolean {
    return this.#here!.hazards.catches(this.#fromCol, this.#fromRow, this.#col, this.#row, this.#scale!);
  }

  /** Position at a share of the last step; 1 is where it ended. */
  position(share = 1): LngLat {
    const col = share === 1 ? this.#col : this.#fromCol + share * (this.#col - this.#fromCol);
    const row = share === 1 ? this.#row : this.#fromRow + share * (this.#row - this.#fromRow);
    return positionOfCell(this.#here!.layer.raster, col, row);
  }

  #settle(position: LngLat): boolean {
    for (const surroundings of this.#surroundings) {
      const { layer } = surroundings;
      const [col, row] = cellOfPosition(layer.raster, position);
      if (!layer.holds(col, row)) continue;
      if (this.#surface.read(layer, col, row)) {
        this.#here = surroundings;
        this.#col = col;
        this.#row = row;
        return true;
      }
      if (this.terrain.isWanting) return false;
    }
    return false;
  }

  #slope(): void {
    const here = this.#here!;
    const scale = here.layer.scales.near(this.#col, this.#row);
    const { perCol, perRow } = this.#surface;
    this.#scale = scale;
    this.stepM = here.stepM;
    this.gradE = perCol * scale.colPerEast + perRow * scale.rowPerEast;
    this.gradN = perCol * scale.colPerNorth + perRow * scale.rowPerNorth;
    this.slopeTan = Math.sqrt(this.gradE * this.gradE + this.gradN * this.gradN);
  }
}

function isInAny(boxes: readonly CellBox[], col: number, row: number): boolean {
  for (const box of boxes) {
    if (col >= box.west && col <= box.east && row >= box.north && row <= box.south) return true;
  }
  return false;
}
