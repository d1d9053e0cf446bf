import { isWorldFileName } from '../core/files/raster/world-file';
import type { RasterAnswers } from '../worker/ground-calls';

const stemOf = (name: string): string => name.replace(/\.[^.]*$/, '');

/** A world file, or coarser pictures or a mask of the raster's. */
export const belongsTo = (raster: File, { name }: File): boolean =>
  (isWorldFileName(name) && stemOf(name) === stemOf(raster.name)) ||
  (/\.(ovr|msk)$/i.test(name) && stemOf(name) === raster.name);

/** What the files that came with a raster say of it. */
export async function besideOf(raster: File, files: readonly File[]): Promise<Partial<RasterAnswers>> {
  const own = files.filter((file) => belongsTo(raster, file));
  const world = own.find(({ name }) => isWorldFileName(name));
  return {
    ...(world && { worldFile: await world.slice(0, 4096).text() }),
    beside: own.filter((file) => file !== world).map(({ name }) => name),
  };
}
