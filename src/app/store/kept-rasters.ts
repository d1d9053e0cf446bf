import type { KeptRaster } from './database';
import type { Device } from './device';

/** Larger files are kept when the user says so. */
export const keptByItselfBytes = 50 * 2 ** 20;

/**
 * Raster files on this device. Their bytes lie in the origin's private file system, or, where the browser has none, in the
 * database.
 */
export class KeptRasters {
  constructor(readonly device: Device) {}

  async list(): Promise<readonly { readonly raster: KeptRaster; readonly sizeBytes: number }[]> {
    const all = await (await this.device.open()).getAll('files');
    return all.map((raster) => ({ raster, sizeBytes: raster.sizeBytes ?? raster.file?.size ?? 0 }));
  }

  /** The bytes of one; null where they are gone. */
  async read({ key, file, sizeBytes }: KeptRaster): Promise<Blob | null> {
    if (file) return file;
    try {
      const folder = await this.#folder();
      const found = await (await folder?.getFileHandle(fileNameOf(key)))?.getFile();
      return found && found.size === sizeBytes ? found : null;
    } catch {
      return null;
    }
  }

  /** Its bytes first, its name after: a kill in between leaves a file that nobody names, and `sweep` takes it away. */
  async keep(raster: Omit<KeptRaster, 'file' | 'sizeBytes'>, file: Blob): Promise<void> {
    const isWritten = await this.#write(raster.key, file);
    const db = await this.device.open();
    await db.put('files', { ...raster, file: isWritten ? null : file, sizeBytes: file.size });
  }

  async drop(key: string): Promise<void> {
    await (await this.device.open()).delete('files', key);
    await this.#removeFile(fileNameOf(key));
  }

  /** Files that were being written when the page ended. */
  async sweep(): Promise<void> {
    const folder = await this.#folder();
    if (!folder) return;
    const db = await this.device.open();
    const named = new Set((await db.getAllKeys('files')).map(fileNameOf));
    const names = folder as unknown as { keys(): AsyncIterable<string> };
    for await (const name of names.keys()) if (!named.has(name)) await this.#removeFile(name);
  }

  async #write(key: string, file: Blob): Promise<boolean> {
    const folder = await this.#folder();
    if (!folder) return false;
    const handle = await folder.getFileHandle(fileNameOf(key), { create: true });
    if (typeof handle.createWritable !== 'function') return false;
    const into = await handle.createWritable();
    await file.stream().pipeTo(into);
    return true;
  }

  async #removeFile(name: string): Promise<void> {
    try {
      await (await this.#folder())?.removeEntry(name);
    } catch {
      // It was not there.
    }
  }

  async #folder(): Promise<FileSystemDirectoryHandle | null> {
    try {
      const root = await navigator.storage.getDirectory();
      return await root.getDirectoryHandle('rasters', { create: true });
    } catch {
      return null;
    }
  }
}

/** Keys hold what files are called; file systems allow less. */
const fileNameOf = (key: string): string => encodeURIComponent(key).replaceAll('*', '%2A').slice(0, 200);
