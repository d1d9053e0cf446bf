import type { ErrorEvent, Map as MapLibreMap, RasterTileSource, VectorTileSource } from 'maplibre-gl';

/** How long after a failure tiles are asked for again, milliseconds; after the last they wait for the network or a reload. */
const waitsMs = [1000, 5000, 20_000];

interface FailedTile {
  readonly sourceId?: string;
  readonly tile?: object;
}

/** Asks for tiles that failed again, a few times and when the network is back; says once that some are missing. */
export function tryTilesAgain(map: MapLibreMap, onSay: (text: string) => void): void {
  const tries = new Map<string, number>();
  const waiting = new Set<string>();
  let isSaid = false;
  map.on('error', (event: ErrorEvent & FailedTile) => {
    const { error, sourceId, tile } = event;
    if (error instanceof Error && error.name === 'AbortError') return;
    if (sourceId === undefined || tile === undefined) return console.warn(error);
    if (!isSaid) onSay('A part of the map could not be drawn; it is tried again');
    isSaid = true;
    if (waiting.has(sourceId)) return;
    waiting.add(sourceId);
    // The whole source: a failed tile that is refreshed alone is drawn before it has a picture, which ends the drawing (6.17).
    const again = () => {
      waiting.delete(sourceId);
      const source = map.getSource<RasterTileSource | VectorTileSource>(sourceId);
      if (source) source.setTiles(source.tiles);
    };
    const count = tries.get(sourceId) ?? 0;
    tries.set(sourceId, count + 1);
    const waitMs = waitsMs[count];
    if (waitMs !== undefined) setTimeout(again, waitMs);
    else window.addEventListener('online', again, { once: true });
  });
}
