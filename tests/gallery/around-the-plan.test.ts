import { expect, test } from 'vitest';
import AfterwardsView from '../../src/app/ledger/AfterwardsView.svelte';
import RackChart from '../../src/app/ledger/RackChart.svelte';
import WhatIf from '../../src/app/ledger/WhatIf.svelte';
import TeamPlayer from '../../src/app/ribbon/TeamPlayer.svelte';
import { runRunningBelay } from '../../src/core/pace/running-belay';
import { figures, madeUpPlan, madeUpProject } from '../app/fixture/made-up-plan';
import { galleryPage } from './page';

const plan = madeUpPlan();

test('more pickets, less time, and from six no gathering in a bad place', async () => {
  const rows = [2, 3, 4, 5, 6, 7, 8].map((pickets) => ({
    pickets,
    timeS: 3600 * (1.2 + 6 / pickets),
    gatherings: Math.ceil(24 / (pickets - 1)),
    badGatherings: Math.max(0, 6 - pickets),
    onOnePiece: pickets < 3 ? 4 : 0,
  }));
  const page = galleryPage(RackChart, { advice: { rows, fewestWithoutBad: 6 }, carried: 3 });
  await expect(page).toMatchFileSnapshot('output/rack-chart.html');
});

test('a recorded day that was slower on the pieces', async () => {
  const result = {
    segments: plan.segments.map(({ id, time }) => ({
      segmentId: id,
      plannedS: time?.defaultS ?? null,
      realS: id < 6 && time ? time.defaultS * (id === 4 ? 1.4 : 0.95) : null,
    })),
    byGrade: [
      { fromDeg: 0, toDeg: 10, plannedS: 1380, realS: 1290, suggested: 0.93 },
      { fromDeg: 10, toDeg: 20, plannedS: 440, realS: 480, suggested: null },
    ],
    perPieceS: { plannedS: 240, realS: 335 },
    suggested: { walkingFactor: 0.95, placementFactor: 1.4 },
    matchedPct: 93,
  };
  const own = { walkingFactor: 1, walkingByGrade: [], placementFactor: 1 };
  const page = galleryPage(AfterwardsView, {
    result,
    plan,
    name: 'ombry-recorded-day.gpx',
    own,
    units: 'metric' as const,
    onTakeOver: () => undefined,
    onPutAway: () => undefined,
  });
  await expect(page).toMatchFileSnapshot('output/afterwards.html');
});

test('the team eight minutes into a running belay', async () => {
  const { events } = runRunningBelay({
    lengthM: 90,
    climbers: 3,
    intervalM: 12,
    spacingM: 12,
    pickets: 4,
    captureDevices: 0,
    speedMS: 0.2,
    acts: { placeS: 150, clipS: 20, removeS: 45, stanceS: 120, handoverS: 120 },
    lastLeads: false,
  });
  const page = galleryPage(TeamPlayer, {
    events,
    names: ['A', 'B', 'C'],
    units: 'metric' as const,
    startS: 700,
  });
  await expect(page).toMatchFileSnapshot('output/team-player.html');
});

test('the same line in other snow: what differs from the plan that was kept', async () => {
  const [reference, now] = [plan, madeUpPlan()];
  const segments = now.segments.map((segment) =>
    segment.id === 5 ? { ...segment, mode: 'pitched-belay' as const } : segment,
  );
  const time = { ...now.totals.time, defaultS: now.totals.time.defaultS + 2100 };
  const page = galleryPage(WhatIf, {
    plan: { ...now, segments, totals: { ...now.totals, time, pitches: 7 } },
    project: madeUpProject,
    figures,
    units: 'metric' as const,
    reference,
    onKeep: () => undefined,
    onDrop: () => undefined,
    onGoTo: () => undefined,
  });
  await expect(page).toMatchFileSnapshot('output/what-if.html');
});
