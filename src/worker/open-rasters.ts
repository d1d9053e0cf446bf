import { openRaster } from '../core/files/raster/open';
import type { ByteSource, Raster } from '../core/domain/raster';
import { ProblemError } from '../core/domain/raster';
import { usualSigmaZM } from '../core/ground/slope-error';
import { defaultFigures } from '../core/assumptions/figures';
import type { OpenTerrain, RasterAnswers } from './ground-calls';
import { inflater } from './inflate';
import { outlineOf } from './outline';
import { sha256 } from './sha256';

/** The rasters that are open in this worker, by the page's names for them. */
export class OpenRasters {
  /** Still opening or open: whoever asks for one waits for it. */
  readonly #rasters = new Map<string, Promise<Raster | null>>();
  readonly #remote = new WeakSet<Raster>();

  async open(key: string, source: ByteSource, answers: RasterAnswers): Promise<OpenTerrain> {
    const opening = openRaster(source, {
      inflater,
      crs: answers.crs ?? undefined,
      elevationUnit: answers.elevationUnit ?? undefined,
      worldFile: answers.worldFile ?? undefined,
      beside: answers.beside,
      digest: sha256,
    });
    this.#rasters.set(
      key,
      opening.then((opened) => (opened.ok ? opened.value : null)),
    );
    const opened = await opening;
    if (!opened.ok) throw new ProblemError(opened.problem);
    const raster = opened.value;
    if (source.isRemote) this.#remote.add(raster);
    const outline = outlineOf(raster);
    const nearDeg = outline[0]?.[0] ?? 0;
    // Counted on from the first corner, so that a raster across the 180th meridian has an east beyond 180.
    const lngs = outline.map(([lng]) => lng + 360 * Math.round((nearDeg - lng) / 360));
    const lats = outline.map(([, lat]) => lat);
    return {
      key,
      name: raster.name,
      cellM: raster.cellM,
      frame: raster.frame.name,
      surveyed: raster.surveyed,
      heightsFrom: raster.heightsFrom,
      sigmaZM: usualSigmaZM(raster.cellM, defaultFigures.ground),
      encoding: raster.encoding,
      checksum: raster.checksum,
      notes: raster.notes,
      outline,
      west: Math.min(...lngs),
      east: Math.max(...lngs),
      south: Math.min(...lats),
      north: Math.max(...lats),
    };
  }

  isRemote(raster: Raster): boolean {
    return this.#remote.has(raster);
  }

  close(key: string): void {
    this.#rasters.delete(key);
  }

  /** Those of the keys that are open, in their order. */
  async of(keys: readonly string[]): Promise<Raster[]> {
    const rasters = await Promise.all(keys.map((key) => this.#rasters.get(key) ?? Promise.resolve(null)));
    return rasters.filter((raster) => raster !== null);
  }
}
