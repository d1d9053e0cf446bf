import { addProtocol, type RasterSourceSpecification } from 'maplibre-gl';
import { FileSource, PMTiles, Protocol, TileType } from 'pmtiles';

/** A base map of the user's own. Nothing is fetched until it is entered. */
export type OwnTiles =
  | { readonly kind: 'address'; readonly url: string; readonly attribution: string }
  | { readonly kind: 'file'; readonly file: File; readonly attribution: string };

let protocol: Protocol | null = null;

/** The tiles as a raster source of the map, or why they cannot be one. */
export async function ownTilesSource(
  tiles: OwnTiles,
): Promise<
  { readonly source: RasterSourceSpecification; readonly attribution: string } | { readonly why: string }
> {
  if (tiles.kind === 'address') {
    const { url } = tiles;
    const isTemplate = ['{z}', '{x}', '{y}'].every((part) => url.includes(part));
    if (!isTemplate) return { why: 'The address needs {z}, {x} and {y} where the numbers of a tile go.' };
    if (!/^https:\/\//.test(url)) return { why: 'The address must begin with https://' };
    return { source: { type: 'raster', tiles: [url], tileSize: 256 }, attribution: tiles.attribution };
  }
  const archive = new PMTiles(new FileSource(tiles.file));
  const header = await archive.getHeader().catch(() => null);
  if (!header) return { why: `${tiles.file.name} is no PMTiles archive.` };
  if (![TileType.Png, TileType.Jpeg, TileType.Webp, TileType.Avif].includes(header.tileType))
    return { why: `${tiles.file.name} holds vector tiles; pictures (PNG, JPEG, WebP) are drawn here.` };
  if (!protocol) {
    protocol = new Protocol();
    addProtocol('pmtiles', protocol.tile);
  }
  protocol.add(archive);
  const about = await archive.getMetadata().catch(() => null);
  const named =
    typeof about === 'object' && about !== null && 'attribution' in about ? about.attribution : '';
  return {
    attribution: tiles.attribution || (typeof named === 'string' ? wordsOf(named) : ''),
    source: {
      type: 'raster',
      tiles: [`pmtiles://${archive.source.getKey()}/{z}/{x}/{y}`],
      tileSize: 256,
      minzoom: header.minZoom,
      maxzoom: header.maxZoom,
      bounds: [header.minLon, header.minLat, header.maxLon, header.maxLat],
    },
  };
}

/** Credits inside archives are often written with links: their words are shown, their marks are not. */
const wordsOf = (credit: string): string => credit.replaceAll(/<[^>]*>/g, '').slice(0, 200);
