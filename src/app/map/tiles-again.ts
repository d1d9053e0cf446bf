import type { ErrorEvent, Map as MapLibreMap } from 'maplibre-gl';

/** How long after a failure a tile is asked for again, milliseconds; after the last it waits for the network or a reload. */
const waitsMs = [1000, 5000, 20_000];

interface FailedTile {
  readonly sourceId?: string;
  readonly tile?: {
    readonly tileID: { readonly canonical: { readonly z: number; readonly x: number; readonly y: number } };
  };
}

/** Asks for tiles that failed again, a few times and when the network is back; says once that some are missing. */
export function tryTilesAgain(map: MapLibreMap, onSay: (text: string) => void): void {
  const tries = new Map<string, number>();
  let isSaid = false;
  map.on('error', (event: ErrorEvent & FailedTile) => {
    const { error, sourceId, tile } = event;
    if (error instanceof Error && error.name === 'AbortError') return;
    if (sourceId === undefined || tile === undefined) return console.warn(error);
    const { z, x, y } = tile.tileID.canonical;
    const key = `${sourceId} ${z}/${x}/${y}`;
    const count = tries.get(key) ?? 0;
    tries.set(key, count + 1);
    if (!isSaid) onSay('A part of the map could not be drawn; it is tried again');
    isSaid = true;
    const again = () => {
      if (map.getSource(sourceId)) map.refreshTiles(sourceId, [{ z, x, y }]);
    };
    const waitMs = waitsMs[count];
    if (waitMs !== undefined) setTimeout(again, waitMs);
    else window.addEventListener('online', again, { once: true });
  });
}
