import type { LngLat } from '../../src/core/domain/coordinates';
import { readProject, writeProject, defaultProject } from '../../src/core/files/project';
import { readTrackFile } from '../../src/core/files/track-file';
import { tracksGpx } from '../../src/core/files/gpx-write';
import { destination } from '../destination';
import { measureLine } from '../../src/core/line/measured-line';
import { nearestOnMeasured } from '../../src/core/line/nearest';
import { simplifyLine } from '../../src/core/line/simplify';
import { makeStations } from '../../src/core/line/stations';
import { medianMs, type Figures } from './figure';

/** A winding line of legs of equal length. */
function winding(legs: number, legM: number): LngLat[] {
  const line: LngLat[] = [[-27, 51]];
  for (let i = 0; i < legs; i++)
    line.push(destination(line[i] ?? [0, 0], { bearingDeg: 40 + 30 * Math.sin(i / 9), distanceM: legM }));
  return line;
}

const point = (position: LngLat, i: number) => ({
  position,
  elevationM: 1000 + (i % 50),
  timeMs: 1.9e12 + i * 1000,
});

const figures: Figures = async () => {
  const long = winding(20_000, 5);
  const track = winding(100_000, 1.4).map(point);
  const gpx = new TextEncoder().encode(
    tracksGpx({ tracks: [{ name: 't', kind: 'track', parts: [track] }], waypoints: [] }),
  );
  const line = { id: 'l', name: '', points: long.map(point) };
  const project = writeProject({ ...defaultProject(), line });
  const measured = measureLine(long);
  const beside = destination(long[9000] ?? [0, 0], { bearingDeg: 0, distanceM: 30 });
  nearestOnMeasured(measured, beside);
  return [
    {
      name: 'stations every 5 m of a 100 km line of 20 000 points',
      value: await medianMs(5, () => makeStations(long, { stepM: 5, alsoAtM: [] })),
      unit: 'ms',
      limit: { atMost: 1000 },
    },
    {
      name: 'nearest place on a measured line of 20 000 points',
      value: await medianMs(20, () => nearestOnMeasured(measured, beside)),
      unit: 'ms',
      limit: { atMost: 20 },
    },
    {
      name: 'simplify a track of 100 000 points',
      value: await medianMs(3, () => simplifyLine(track, 5)),
      unit: 'ms',
      limit: { atMost: 1000 },
    },
    {
      name: `read a GPX track of 100 000 points (${(gpx.length / 1e6).toFixed(1)} MB)`,
      value: await medianMs(3, () => readTrackFile(gpx, 'a.gpx')),
      unit: 'ms',
      limit: { atMost: 1000 },
    },
    {
      name: `read a project of 20 000 points (${(project.length / 1e6).toFixed(1)} MB)`,
      value: await medianMs(3, () => readProject(project, 'a.firnward.json')),
      unit: 'ms',
      limit: { atMost: 1000 },
    },
  ];
};

export default figures;
