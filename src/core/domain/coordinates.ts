declare const frame: unique symbol;
type Frame<Name extends string> = { readonly [frame]?: Name };

/** WGS 84 position, longitude first as in GeoJSON (RFC 7946 §3.1.1). Degrees. */
export type LngLat = readonly [lngDeg: number, latDeg: number] & Frame<'wgs84'>;

/** Position in a raster's own coordinate system: x east, y north, in that system's unit. */
export type MapXY = readonly [x: number, y: number] & Frame<'map'>;

/** Raster cell: column counted from the west edge, row from the north edge. */
export type Cell = readonly [col: number, row: number] & Frame<'raster'>;
