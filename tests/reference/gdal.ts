import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';

interface Dataset {
  readonly pointer: number;
}

interface Gdal {
  readonly Module: {
    _malloc(bytes: number): number;
    setValue(at: number, value: number, type: 'i32'): void;
    readonly HEAPU8: Uint8Array;
    _GDALDEMProcessingOptionsNew(argv: number, binary: number): number;
    _GDALDEMProcessingOptionsFree(options: number): void;
    _GDALDEMProcessing(
      name: number,
      dataset: number,
      kind: number,
      colours: number,
      options: number,
      usageError: number,
    ): number;
    _GDALClose(dataset: number): void;
  };
  open(path: string): Promise<{ datasets: [Dataset] }>;
  close(dataset: Dataset): void;
  getInfo(dataset: Dataset): Promise<{
    width: number;
    height: number;
    projectionWkt: string;
    coordinateTransform: Record<number, number>;
  }>;
  gdal_translate(dataset: Dataset, options: string[], name: string): Promise<{ real: string }>;
  gdalwarp(dataset: Dataset, options: string[], name: string): Promise<{ real: string }>;
  gdaltransform(points: number[][], options: string[]): Promise<number[][]>;
}

/** A raster as GDAL reads it. Arrays run row by row from the north-west; NaN where GDAL has no data. */
export interface GdalRaster {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly wkt: string;
  /** x = t0 + col t1 + row t2, y = t3 + col t4 + row t5. */
  readonly transform: readonly number[];
  readonly z: Float64Array;
  /** Horn's rise per map unit, eastward and northward in the grid, from its own slope and aspect. */
  readonly riseX: Float64Array;
  readonly riseY: Float64Array;
}

/** GDAL compiled to WebAssembly (gdal3.js): the same code as the command line, wherever Node runs. */
export class GdalReference {
  readonly #folder = mkdtempSync(join(tmpdir(), 'gdal-'));
  #gdal: Gdal | null = null;
  #count = 0;

  async start(): Promise<Gdal> {
    const load = createRequire(import.meta.url)('gdal3.js/node') as (options: object) => Promise<Gdal>;
    this.#gdal ??= await load({
      // Taken from the working folder, whatever it looks like.
      path: relative('', join(import.meta.dirname, '../../node_modules/gdal3.js/dist/package')),
      dest: this.#folder,
    });
    return this.#gdal;
  }

  stop(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }

  /** The cells alone. */
  async readCells(path: string): Promise<Omit<GdalRaster, 'riseX' | 'riseY'>> {
    const gdal = await this.start();
    const dataset = (await gdal.open(path)).datasets[0];
    const cells = await this.#cells(gdal, dataset, `c${String(this.#count++)}`);
    gdal.close(dataset);
    return cells;
  }

  async read(path: string): Promise<GdalRaster> {
    const gdal = await this.start();
    const dataset = (await gdal.open(path)).datasets[0];
    const id = `r${String(this.#count++)}`;
    const { widthPx, heightPx, wkt, transform, z } = await this.#cells(gdal, dataset, id);
    const percent = floats(this.#dem(gdal, dataset, 'slope', `${id}s`, ['-p', '-s', '1']));
    const azimuth = floats(this.#dem(gdal, dataset, 'aspect', `${id}a`, []));
    gdal.close(dataset);

    const eastPx = transform[1]!;
    const northPx = -transform[5]!;
    const riseX = new Float64Array(z.length).fill(NaN);
    const riseY = new Float64Array(z.length).fill(NaN);
    for (let i = 0; i < z.length; i++) {
      if (percent[i] === -9999) continue;
      if (azimuth[i] === -9999) {
        riseX[i] = 0;
        riseY[i] = 0;
        continue;
      }
      // Its aspect is that of the raw differences, whatever the cell; its slope is in map units.
      const east = -Math.sin((azimuth[i]! * Math.PI) / 180) / eastPx;
      const north = -Math.cos((azimuth[i]! * Math.PI) / 180) / northPx;
      const steep = percent[i]! / 100 / Math.hypot(east, north);
      riseX[i] = east * steep;
      riseY[i] = north * steep;
    }
    return { widthPx, heightPx, wkt, transform, z, riseX, riseY };
  }

  async #cells(gdal: Gdal, dataset: Dataset, id: string): Promise<Omit<GdalRaster, 'riseX' | 'riseY'>> {
    const info = await gdal.getInfo(dataset);
    const raw = async (name: string, options: string[]) =>
      (await gdal.gdal_translate(dataset, ['-of', 'ENVI', ...options], name)).real;
    const z = doubles(readFileSync(await raw(`${id}z`, ['-b', '1', '-unscale', '-ot', 'Float64'])));
    const mask = readFileSync(await raw(`${id}m`, ['-b', 'mask', '-ot', 'Byte']));
    for (let i = 0; i < z.length; i++) if (mask[i] === 0) z[i] = NaN;
    const transform = [0, 1, 2, 3, 4, 5].map((k) => info.coordinateTransform[k]!);
    return { widthPx: info.width, heightPx: info.height, wkt: info.projectionWkt, transform, z };
  }

  /**
   * Map positions of a raster to longitude and latitude on WGS 84: by the system's own GDAL where there is one. The
   * WebAssembly build gives up on some datums: null then.
   */
  async toLngLat(
    wkt: string,
    positions: readonly (readonly [number, number])[],
  ): Promise<[number, number][] | null> {
    return this.#transform(wkt, 'EPSG:4326', positions);
  }

  /** The way back. */
  async fromLngLat(
    wkt: string,
    positions: readonly (readonly [number, number])[],
  ): Promise<[number, number][] | null> {
    return this.#transform('EPSG:4326', wkt, positions);
  }

  async #transform(
    from: string,
    to: string,
    positions: readonly (readonly [number, number])[],
  ): Promise<[number, number][] | null> {
    const input = positions.map(([x, y]) => `${String(x)} ${String(y)}\n`).join('');
    const args = ['-s_srs', from, '-t_srs', to, '-output_xy'];
    const run = spawnSync('gdaltransform', args, { input, encoding: 'utf8' });
    if (run.status === 0) {
      return run.stdout
        .trim()
        .split('\n')
        .map((line) => line.split(' ').map(Number) as [number, number]);
    }
    const gdal = await this.start();
    const points = positions.map(([x, y]) => [x, y]);
    return gdal.gdaltransform(points, args).catch(() => null) as Promise<[number, number][] | null>;
  }

  /** Warps a file; the path of the new one. */
  async warp(path: string, options: string[]): Promise<string> {
    const gdal = await this.start();
    const dataset = (await gdal.open(path)).datasets[0];
    const name = `w${String(this.#count++)}`;
    const { real } = await gdal.gdalwarp(dataset, ['-of', 'GTiff', ...options], name);
    gdal.close(dataset);
    return real;
  }

  /** Rewrites a file; the path of the new one. */
  async translate(path: string, options: string[]): Promise<string> {
    const gdal = await this.start();
    const dataset = (await gdal.open(path)).datasets[0];
    const { real } = await gdal.gdal_translate(
      dataset,
      ['-of', 'GTiff', ...options],
      `t${String(this.#count++)}`,
    );
    gdal.close(dataset);
    return real;
  }

  /** gdaldem has no function of its own in the library, but its C interface is there. */
  #dem(gdal: Gdal, dataset: Dataset, kind: string, name: string, options: string[]): Buffer {
    const { Module } = gdal;
    const text = (value: string): number => {
      const bytes = Buffer.from(`${value}\0`);
      const at = Module._malloc(bytes.length);
      Module.HEAPU8.set(bytes, at);
      return at;
    };
    const args = ['-of', 'ENVI', ...options].map(text);
    const argv = Module._malloc(4 * (args.length + 1));
    args.forEach((arg, i) => {
      Module.setValue(argv + 4 * i, arg, 'i32');
    });
    Module.setValue(argv + 4 * args.length, 0, 'i32');
    const parsed = Module._GDALDEMProcessingOptionsNew(argv, 0);
    const path = text(`/output/${name}.bin`);
    const made = Module._GDALDEMProcessing(path, dataset.pointer, text(kind), 0, parsed, 0);
    Module._GDALDEMProcessingOptionsFree(parsed);
    Module._GDALClose(made);
    return readFileSync(join(this.#folder, `${name}.bin`));
  }
}

function doubles(bytes: Buffer): Float64Array {
  return new Float64Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
}

function floats(bytes: Buffer): Float32Array {
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
}
