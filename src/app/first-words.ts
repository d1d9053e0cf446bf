/** What the page says of itself on the first visits. */
export const firstWords =
  'An invented mountain, to try. Your own: drop a track and an elevation raster anywhere, or draw a line.';
