/** How one kind of number comes about, in a guide's words. */
export interface Method {
  readonly about: string;
  readonly how: string;
  /** Who has published it, or that it is practice or judgement. */
  readonly source: string;
}

export const methods: readonly Method[] = [
  {
    about: 'Lengths and bearings',
    how: 'Along the geodesic on the WGS 84 ellipsoid, horizontally. Stations stand every 5 m and at every turn of the line.',
    source: 'Karney, Algorithms for geodesics, J. Geodesy 87 (2013)',
  },
  {
    about: 'Slope and facing',
    how: 'From the eight cells around each cell of the elevation raster, in true metres. The slope at a station is that of the cell it stands on, whichever way you go.',
    source: 'Horn, Proc. IEEE 69 (1981)',
  },
  {
    about: 'Design slope',
    how: 'The slope, plus what cells of this size hide: coarse rasters flatten short steep steps. Every technique is decided on it.',
    source: 'First-order error propagation; the amounts are judgement',
  },
  {
    about: 'Run-out',
    how: 'A body slides down the fall line, and 15 degrees to both sides of it, with the low friction of the snow. How fast it gets, and what it meets, makes the ground below gentle, injuring or deadly. Edges and holes of the raster count as the worst.',
    source: 'Energy line after Heim (1932); friction and speeds are judgement',
  },
  {
    about: 'Slips, of 100',
    how: 'Thousands of slips of this team on this slope are followed to their end: the slide, the rope coming tight, mates who hold or are pulled off, pieces that hold or tear out. All that is not known well is drawn from its range each time. A share of modelled slips is no probability of an accident.',
    source: 'Mechanics; snow, arrest and piece strength are mostly judgement, each figure says so',
  },
  {
    about: 'Force in the rope and on the piece',
    how: 'The rope is a spring whose stiffness comes from its label; friction in the carabiner makes the two strands unequal.',
    source: 'Wexler (1950); EN 892 test fall; EN 567 for capture devices',
  },
  {
    about: 'Technique of a stretch',
    how: 'Allowed is what leaves no more slips unheld than your tolerance for the run-out. Of everything allowed, the sequence with the least time is taken, changes included. Where nothing is allowed, none holds.',
    source: 'Bellman (1958) for the sequence; tolerances and floors are judgement and common practice',
  },
  {
    about: 'Segments',
    how: 'The line is cut where the technique changes, at marks, and where the slope changes its character, for that no oftener than every 20 m.',
    source: 'Killick, Fearnhead and Eckley, JASA 107 (2012)',
  },
  {
    about: 'Walking time',
    how: 'By the rule you choose, with factors for snow and height.',
    source: "Munter's rule; Tobler (1993); DIN 33466",
  },
  {
    about: 'Time with a rope on pieces',
    how: 'The team is moved along act by act: placing, clipping past, removing, gathering, handing over. What can happen at once does.',
    source:
      'Our own reckoning; the times of the acts are judgement; one rope length a rotation is common practice',
  },
  {
    about: 'What is not in any number',
    how: 'Avalanches, whether a snow bridge holds, falls into crevasses, the piece in front of you, other parties, weather. Only a person on the spot can judge them.',
    source: 'Local rules, bulletins and a licensed guide go before anything shown here',
  },
];
