/** Brings PROJ's text for a system into what the npm package proj4 reads: ellipsoid and unit as numbers, no datum. */

const dropped = new Set([
  '+no_defs',
  '+type',
  '+datum',
  '+towgs84',
  '+nadgrids',
  '+wktext',
  '+ellps',
  '+a',
  '+b',
  '+rf',
  '+R',
  '+f',
  '+units',
  '+to_meter',
  '+vunits',
  '+geoidgrids',
]);

/** @returns {string | null} null when axes do not run east and north, or the text needs a grid. */
export function proj4Text(text4, json) {
  const words = text4.split(/\s+/).filter(Boolean);
  const value = (key) => words.find((word) => word.startsWith(`${key}=`))?.slice(key.length + 1);
  if (value('+axis') !== undefined && value('+axis') !== 'enu') return null;
  if (words.some((word) => word.startsWith('+proj=pipeline'))) return null;
  const ellipsoid = findEllipsoid(json);
  const unit = unitOf(json);
  if (ellipsoid === null || unit === null) return null;
  const kept = words.filter((word) => !dropped.has(word.split('=')[0]));
  // Web Mercator is a sphere's projection of ellipsoidal coordinates: the sphere stands in the text itself.
  if (value('+proj') === 'merc' && value('+a') === '6378137' && value('+b') === '6378137')
    return `${kept.join(' ')} +a=6378137 +b=6378137 +nadgrids=@null`;
  const isGeographic = value('+proj') === 'longlat';
  if (isGeographic && unit !== 1) return null;
  return [...kept, ellipsoid, ...(isGeographic || unit === 1 ? [] : [`+to_meter=${unit}`])].join(' ');
}

/** Ellipsoid and prime meridian alone, for a geographic system that only others are based on. */
export function bodyText(text4, json) {
  const meridian = /\+pm=\S+/.exec(text4)?.[0];
  return [meridian, findEllipsoid(json)].filter(Boolean).join(' ');
}

function findEllipsoid(json) {
  const found = search(json, 'ellipsoid');
  if (found === null) return null;
  const size = (n) => (typeof n === 'object' ? n.value * n.unit.conversion_factor : n);
  if (found.radius !== undefined) return `+a=${size(found.radius)} +b=${size(found.radius)}`;
  const a = size(found.semi_major_axis);
  return found.inverse_flattening !== undefined
    ? `+a=${a} +rf=${found.inverse_flattening}`
    : `+a=${a} +b=${size(found.semi_minor_axis)}`;
}

/** Metres per unit of a projected system's axes; 1 for degrees; null for other angles or mixed axes. */
function unitOf(json) {
  const axes = (json.coordinate_system ?? json.source_crs?.coordinate_system)?.axis ?? [];
  const units = axes.map(({ unit }) =>
    unit === 'metre' || unit === 'degree' ? 1 : unit?.type === 'LinearUnit' ? unit.conversion_factor : null,
  );
  return units.length >= 2 && units[0] === units[1] ? units[0] : null;
}

function search(node, key) {
  if (node === null || typeof node !== 'object') return null;
  if (key in node) return node[key];
  for (const child of Object.values(node)) {
    const found = search(child, key);
    if (found !== null) return found;
  }
  return null;
}
