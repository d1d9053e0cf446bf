import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Project } from '../../../src/core/domain/project';
import { markKinds, type Mark } from '../../../src/core/domain/mark';
import { planGeoJson, tracksGeoJson } from '../../../src/core/files/geojson-write';
import { planGpx, tracksGpx } from '../../../src/core/files/gpx-write';
import { marksOf } from '../../../src/core/files/waypoint-marks';
import { defaultProject, readProject, writeProject } from '../../../src/core/files/project';
import { readTrackFile } from '../../../src/core/files/track-file';
import { lineFromTrack } from '../../../src/core/line/from-track';

/** Names as people give them, in any script, without what XML 1.0 cannot hold at all. */
const name = fc
  .string({ unit: 'grapheme', maxLength: 40 })
  // eslint-disable-next-line no-control-regex -- these are the characters XML forbids
  .map((text) => text.replaceAll(/[\u0000-\u001f\u007f-\u009f\ufffe\uffff]/g, '').trim());

/** Neighbours lie apart, and nobody starts at 0, 0: that is asked about. */
const points = fc.array(
  fc.record({
    position: fc.tuple(
      fc.integer({ min: -1_799_999_999, max: 1_799_999_999 }).map((n) => (n || 1) / 1e7),
      fc.integer({ min: -850_000_000, max: 850_000_000 }).map((n) => (n || 1) / 1e7),
    ),
    elevationM: fc.option(fc.integer({ min: -400_000, max: 8_848_000 }).map((mm) => mm / 1000)),
    timeMs: fc.option(fc.integer({ min: 0, max: 4_102_444_800_000 })),
  }),
  { minLength: 2, maxLength: 30 },
);

const project = fc.record({ name, points }).map(({ name: called, points: all }): Project => ({
  ...defaultProject(),
  name: called,
  line: { id: 'line', name: called, points: all },
}));

const bytes = (text: string) => new TextEncoder().encode(text);

function opened(text: string, fileName: string) {
  const read = readTrackFile(bytes(text), fileName);
  if (!read.ok) throw new Error(`${read.problem.code} ${read.problem.title}`);
  return read.value.tracks[0] ?? { name: '', kind: 'track' as const, parts: [] };
}

describe('track, project, GPX, track', () => {
  test('positions to 1e-7 degrees, heights to a millimetre, every time and every name', () => {
    fc.assert(
      fc.property(project, (before) => {
        const track = opened(planGpx(before, null), 'a.gpx');
        expect(track.name).toBe(before.line.name);
        const back = track.parts.flat();
        expect(back).toHaveLength(before.line.points.length);
        back.forEach((point, i) => {
          const was = before.line.points[i]!;
          point.position.forEach((deg, k) =>
            expect(Math.abs(deg - was.position[k]!)).toBeLessThanOrEqual(1e-7),
          );
          expect(point.timeMs).toBe(was.timeMs);
          expect(point.elevationM).toBe(was.elevationM);
        });
        const again = { ...before, line: lineFromTrack(track, { id: 'line', name: 'a.gpx' }).line };
        if (before.name !== '' && again.line.points.length === before.line.points.length)
          expect(planGpx(again, null)).toBe(planGpx(before, null));
      }),
    );
  });
});

/** Marks as people place them, points and drawn extents. */
const marks = fc
  .array(
    fc.record({
      kind: fc.constantFrom(...markKinds),
      positions: fc.uniqueArray(
        fc
          .tuple(fc.integer({ min: 1, max: 179_000 }), fc.integer({ min: 1, max: 85_000 }))
          .map(([lng, lat]): [number, number] => [lng / 1000, lat / 1000]),
        { minLength: 1, maxLength: 4, selector: String },
      ),
      widthM: fc.option(fc.integer({ min: 0, max: 400 }).map((dm) => dm / 10)),
      bridge: fc.constantFrom('solid' as const, 'doubtful' as const, 'poor' as const, null),
      seenOn: fc.constantFrom('2026-01-15', '1999-12-31', null),
      note: name,
    }),
    { maxLength: 5 },
  )
  .map((all) => all.map((one, i): Mark => ({ ...one, id: `m-${i}` })));

test.each([
  ['GPX', 'a.gpx', planGpx, tracksGpx],
  ['GeoJSON', 'a.geojson', planGeoJson, tracksGeoJson],
] as const)(
  '%s gives every mark back: kind, place, width, bridge, date seen and note',
  (_, file, write, again) => {
    fc.assert(
      fc.property(project, marks, (before, placed) => {
        const first = readTrackFile(bytes(write({ ...before, marks: placed }, null)), file);
        if (!first.ok) throw new Error(first.problem.title);
        expect(marksOf(first.value.waypoints, (i) => first.value.waypoints[i]?.mark?.id ?? '')).toEqual(
          placed,
        );
        const second = readTrackFile(bytes(again(first.value)), file);
        if (!second.ok) throw new Error(second.problem.title);
        expect(second.value.waypoints).toEqual(first.value.waypoints);
      }),
      { numRuns: 40 },
    );
  },
);

describe('GeoJSON by RFC 7946', () => {
  /** A checker by the sections of the RFC alone; it shares nothing with the writer. */
  function faults(text: string): string[] {
    const found: string[] = [];
    const value = JSON.parse(text) as { type: string; features: GeoJSON.Feature[] } & Record<string, unknown>;
    if (value.type !== 'FeatureCollection') found.push('3.3: no collection of features');
    if ('crs' in value) found.push('4: a crs member');
    for (const { type, geometry, properties } of value.features) {
      if (type !== 'Feature' || properties === undefined) found.push('3.2: no feature');
      const parts: GeoJSON.Position[][] =
        geometry.type === 'Point'
          ? [[geometry.coordinates]]
          : geometry.type === 'LineString'
            ? [geometry.coordinates]
            : geometry.type === 'MultiLineString'
              ? geometry.coordinates
              : [];
      if (parts.length === 0) found.push(`3.1: ${geometry.type} is not written`);
      for (const part of parts) {
        if (geometry.type !== 'Point' && part.length < 2) found.push('3.1.4: a line of one position');
        part.forEach(([lng = NaN, lat = NaN, ...more], i) => {
          if (!(Math.abs(lng) <= 180 && Math.abs(lat) <= 90)) found.push('4: not longitude, latitude');
          if (more.length > 1) found.push('3.1.1: more than three elements');
          if (/\.\d{10}/.test(String(lng))) found.push('11.2: decimals that say nothing');
          const before = part[i - 1];
          if (before && Math.abs(lng - before[0]!) > 180) found.push('3.1.9: crosses the antimeridian');
        });
      }
    }
    return found;
  }

  test('X9 whatever the line', () => {
    fc.assert(
      fc.property(project, (any) => {
        expect(faults(planGeoJson(any, null))).toEqual([]);
      }),
    );
  });

  test('the checker finds what is wrong', () => {
    const line = (coordinates: number[][]) =>
      JSON.stringify({
        type: 'FeatureCollection',
        features: [{ type: 'Feature', properties: {}, geometry: { type: 'LineString', coordinates } }],
      });
    expect(faults(line([[1, 91], [2, 0]]))).toEqual(['4: not longitude, latitude']); // prettier-ignore
    expect(faults(line([[179, 0], [-179, 0]]))).toEqual(['3.1.9: crosses the antimeridian']); // prettier-ignore
    expect(faults(line([[1, 1]]))).toEqual(['3.1.4: a line of one position']);
  });
});

test('a project that is saved, opened and saved again has the same bytes', () => {
  fc.assert(
    fc.property(project, fc.jsonValue({ maxDepth: 3 }), (before, ofAnother) => {
      const text = writeProject({ ...before, ofAnother } as Project);
      const read = readProject(text, 'a.firnward.json');
      // What another maker's value may not hold is refused, never changed.
      if (!read.ok) expect(read.problem.code).toMatch(/^PRJ-00[678]$/);
      else expect(writeProject(read.value.project)).toBe(text);
    }),
  );
});
