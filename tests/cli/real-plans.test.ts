import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { plan } from '../../src/cli/plan';
import type * as slipThreads from '../../src/cli/slip-threads';

/** The same team in the same snow each time: its slip tables are built once. */
vi.mock('../../src/cli/slip-threads', async (original) => {
  const real = await original<typeof slipThreads>();
  const built = new Map<string, ReturnType<ReturnType<typeof real.startTables>['finish']>>();
  const startTables: typeof real.startTables = (asked) => {
    const key = JSON.stringify(asked);
    const finish = () => {
      const tables = built.get(key) ?? real.startTables(asked).finish();
      built.set(key, tables);
      return tables;
    };
    return { finish };
  };
  return { ...real, startTables };
});

/** Real rasters in several projections, geographic and projected, each with a line drawn on it by a least-cost search. */
const data = process.env['FIRNWARD_DATA'] ?? '';
const pairs: readonly (readonly [line: string, raster: string])[] = [
  ...[
    'arolla_glacier_10m_lv95',
    'auckland_volcano_5m_nztm',
    'batura_srtm_3arcsec_tiny',
    'colorado_third_arcsec_nad83',
    'davos_srtm_1arcsec_wgs84',
    'davos_srtm_30m_utm32',
    'fiescher_glacier_46m_local_tm',
    'liligo_glacier_srtm_30m_utm43',
    'oetztal_srtm_3arcsec_wgs84',
    'okanagan_50m_bc_albers',
    'picos_de_europa_5m_wgs84',
    'sierra_nevada_es_25m_utm30',
    'val_ferret_2m5_lv95',
    'venable_rema_200m_3031',
  ].map((name) => [name, `dem/${name}`] as const),
  ['arolla_glacier_10m_lv95', 'dem/encodings/arolla_unit_feet'],
  ['arolla_glacier_10m_lv95', 'dem/encodings/arolla_pixel_is_point'],
];

interface PlanFile {
  readonly line: { readonly lengthM: number };
  readonly stations: readonly {
    readonly mode: string;
    readonly elevationM: number | null;
    readonly slopeDeg: number | null;
  }[];
  readonly segments: readonly {
    readonly fromM: number;
    readonly toM: number;
    readonly lengthM: number;
    readonly mode: string;
    readonly timeS: { readonly low: number; readonly default: number; readonly high: number } | null;
  }[];
  readonly totals: {
    readonly timeS: { readonly default: number };
    readonly byMode: Readonly<Record<string, { readonly lengthM: number }>>;
  };
}

const place = mkdtempSync(join(tmpdir(), 'firnward-plans-'));
afterAll(() => rmSync(place, { recursive: true, force: true }));

describe.skipIf(!existsSync(data))('plans on real ground', () => {
  const feet: Partial<Record<string, PlanFile>> = {};

  test.each(pairs)(
    '%s on %s',
    async (line, raster) => {
      const out = join(place, 'plan.json');
      await plan([
        '--line',
        join(data, 'lines', `${line}.gpx`),
        '--elevation',
        join(data, `${raster}.tif`),
        '--force',
        '--out',
        out,
      ]);
      const made = JSON.parse(readFileSync(out, 'utf8')) as PlanFile;
      feet[raster] = made;

      expect(made.segments[0]?.fromM).toBe(0);
      expect(made.segments.at(-1)?.toM).toBeCloseTo(made.line.lengthM, 2);
      made.segments.forEach((segment, i) => {
        if (i > 0) expect(segment.fromM).toBe(made.segments[i - 1]?.toM);
        expect(segment.lengthM).toBeCloseTo(segment.toM - segment.fromM, 2);
        expect(segment.timeS === null).toBe(segment.mode === 'none-holds' || segment.mode === 'no-data');
      });
      const modes = ['roped', 'running-belay', 'pitched-belay', 'belayed-crossing', 'none-holds', 'no-data'];
      for (const station of made.stations) {
        expect(modes).toContain(station.mode);
        if (station.slopeDeg === null) expect(station.mode).toBe('no-data');
      }
      const seconds = made.segments.reduce((sum, { timeS }) => sum + (timeS?.default ?? 0), 0);
      expect(seconds).toBeCloseTo(made.totals.timeS.default, 0);
      const metres = Object.values(made.totals.byMode).reduce((sum, { lengthM }) => sum + lengthM, 0);
      expect(metres).toBeCloseTo(made.line.lengthM, 1);
    },
    180_000,
  );

  test('heights in feet and cells as points give the same ground', () => {
    const inFeet = feet['dem/encodings/arolla_unit_feet'];
    const asPoints = feet['dem/encodings/arolla_pixel_is_point'];
    expect(inFeet?.stations.length).toBe(asPoints?.stations.length);
    let known = 0;
    inFeet?.stations.forEach(({ elevationM }, i) => {
      const other = asPoints?.stations[i]?.elevationM ?? null;
      expect(elevationM === null).toBe(other === null);
      if (elevationM === null || other === null) return;
      known++;
      expect(Math.abs(elevationM - other)).toBeLessThan(0.01);
    });
    expect(known).toBeGreaterThan(100);
  });
});
