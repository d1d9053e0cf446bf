import type { PlanFormat } from '../worker/plan-calls';

export type SaveKind = 'project' | 'map-picture' | 'profile-picture' | PlanFormat;

export interface SaveOffer {
  readonly kind: SaveKind;
  readonly label: string;
  readonly detail: string;
  readonly ending: string;
  readonly type: string;
  readonly needsPlan: boolean;
}

export const saveKinds: readonly SaveOffer[] = [
  {
    kind: 'project',
    label: 'Project',
    detail: 'to go on later, here or elsewhere',
    ending: '.firnward.json',
    type: 'application/json',
    needsPlan: false,
  },
  {
    kind: 'gpx',
    label: 'GPX',
    detail: 'line, pieces, gathering places for a receiver',
    ending: '.gpx',
    type: 'application/gpx+xml',
    needsPlan: true,
  },
  {
    kind: 'geojson',
    label: 'GeoJSON',
    detail: 'the same for map programs',
    ending: '.geojson',
    type: 'application/geo+json',
    needsPlan: true,
  },
  {
    kind: 'segments-csv',
    label: 'CSV of segments',
    detail: 'for a spreadsheet',
    ending: '-segments.csv',
    type: 'text/csv',
    needsPlan: true,
  },
  {
    kind: 'stations-csv',
    label: 'CSV of stations',
    detail: 'every place along the line',
    ending: '-stations.csv',
    type: 'text/csv',
    needsPlan: true,
  },
  {
    kind: 'json',
    label: 'Plan as JSON',
    detail: 'for other programs',
    ending: '-plan.json',
    type: 'application/json',
    needsPlan: true,
  },
  {
    kind: 'profile-picture',
    label: 'Picture of the profile',
    detail: 'PNG, black and white',
    ending: '-profile.png',
    type: 'image/png',
    needsPlan: true,
  },
  {
    kind: 'map-picture',
    label: 'Picture of the map',
    detail: 'PNG, as it is shown',
    ending: '-map.png',
    type: 'image/png',
    needsPlan: false,
  },
];
