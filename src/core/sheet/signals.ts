/**
 * Distress signals. Alpine signal: common practice. Ground to air: ICAO Annex 12, appendix on visual signals, symbols at
 * least 2.5 m. Given from memory of these sources; the user is told to confirm numbers locally.
 */
export const signals: readonly string[] = [
  'Distress: six signals a minute, a minute off; answer: three.',
  'On the ground, 2.5 m or larger: V need help, X medical help, N no, Y yes, arrow: moving this way.',
  'To an aircraft: both arms up, yes, help; one up, one down, no.',
];

export const rescueNumbers: readonly string[] = [
  'Mountain rescue',
  'Emergency number',
  'Hut or base',
  'Radio channel',
];
