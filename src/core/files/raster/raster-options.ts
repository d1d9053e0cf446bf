import type { Inflater } from './codec/inflate';
import type { ElevationUnit } from './elevation-unit';

/** What the caller knows, or has, that the file does not say. */
export interface RasterOptions {
  /** EPSG code said by the user, e.g. `EPSG:2056`; goes before what the file says. */
  readonly crs?: string | undefined;
  /** Unit of the elevations said by the user; goes before what the file says. */
  readonly elevationUnit?: ElevationUnit | undefined;
  /** Text of a world file that came with the raster; used where the raster has no place of its own. */
  readonly worldFile?: string | undefined;
  /** Names of files that belong to the raster (`dem.tif.ovr`, `dem.tif.msk`) and are not handed in. */
  readonly beside?: readonly string[] | undefined;
  /** The platform's own inflater; without it deflate data are inflated in script. */
  readonly inflater?: Inflater | undefined;
  /** SHA-256 in hex; asked for files up to 64 MB, which are then read whole once. */
  readonly digest?: ((bytes: Uint8Array) => Promise<string>) | undefined;
}
