import { describe, expect, test } from 'vitest';
import { readPointsCsv } from '../../../src/core/files/points-csv';
import { readTrackFile } from '../../../src/core/files/track-file';

const bytes = (text: string) => new TextEncoder().encode(text);

/** What is seldom met, and must still be read or refused rightly. */
describe('points in CSV', () => {
  const read = (text: string) => readPointsCsv(bytes(text), 'points.csv');
  const refused = (text: string) => {
    const result = read(text);
    return result.ok ? null : result.problem.code;
  };

  test('a file of empty lines names no columns', () => {
    expect(refused('\n\n')).toBe('CSV-001');
  });

  test('a last cell may be empty: without a longitude it is refused, without a name it is read', () => {
    expect(refused('lat,lon\n46,')).toBe('CSV-003');
    expect(read('lon,lat,name\n7,46,')).toEqual({ ok: true, value: [[7, 46]] });
  });

  test('more points than are read at once', () => {
    expect(refused(`lon,lat\n${'7,46\n'.repeat(2_000_001)}`)).toBe('CSV-034');
  });
});

describe('tracks', () => {
  test('a line that goes by the name of a project or a table is refused for what it is', () => {
    const codes = ['day.firnward.json', 'day.csv'].map((name) => {
      const read = readTrackFile(bytes('{"type":"Nothing"}'), name);
      return read.ok ? null : read.problem.code;
    });
    expect(codes).toEqual(['GEO-006', 'GEO-006']);
  });

  const feature = (geometry: unknown) =>
    readTrackFile(
      bytes(
        JSON.stringify({
          type: 'FeatureCollection',
          features: [
            {
              type: 'Feature',
              properties: { firnwardDerived: 'mark', id: 'm', kind: 'water', name: 'tarn' },
              geometry,
            },
          ],
        }),
      ),
      'marks.geojson',
    );

  test('a mark whose shape is missing is refused; one in two parts has the points of both', () => {
    expect(feature(null)).toMatchObject({ ok: false, problem: { place: '/features/0/geometry' } });
    const parts = [[[7, 46], [7.001, 46]], [[7.002, 46]]]; // prettier-ignore
    for (const [type, coordinates] of [
      ['MultiLineString', parts],
      ['LineString', parts.flat()],
    ]) {
      const read = feature({ type, coordinates });
      expect(read.ok && read.value.waypoints.map(({ position: [lng] }) => lng)).toEqual([7, 7.001, 7.002]);
    }
  });

  test('of our own extensions those that are not known yet are passed over', () => {
    const gpx = `<gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1" xmlns:f="urn:firnward:1">
      <trk><trkseg><trkpt lat="46" lon="7"><extensions><f:later>1</f:later></extensions></trkpt><trkpt lat="46" lon="7.001"/></trkseg></trk></gpx>`;
    const read = readTrackFile(bytes(gpx), 'a.gpx');
    expect(read.ok && read.value.tracks[0]?.parts[0]).toHaveLength(2);
  });
});
