import { alternatives } from './layers/alternatives';
import { direction } from './layers/direction';
import { grounds } from './layers/grounds';
import { here } from './layers/here';
import type { MapLayer } from './layers/map-layer';
import { preview } from './layers/preview';
import { marks } from './layers/marks';
import { onLine } from './layers/on-line';
import { runOut } from './layers/run-out';
import { segments } from './layers/segments';
import { stretch } from './layers/stretch';

/** Everything drawn over the relief, bottom first. A layer not listed here is not drawn. */
export const drawOrder: readonly MapLayer[] = [
  grounds,
  alternatives,
  runOut,
  stretch,
  segments,
  preview,
  direction,
  onLine,
  marks,
  here,
];
