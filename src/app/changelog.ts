/** What is new, for the person on the mountain. Newest first. */
export const changelog: readonly { readonly on: string; readonly changes: readonly string[] }[] = [
  {
    on: '2026-11-27',
    changes: [
      'Slips on a line straight across the slope are told better: shares were up to 7 of 100 off for a light team on a pitch.',
      'What slips do is known in a third of the time.',
      'The watched team goes on where it was when the plan is made again.',
      'A plan on a raster elsewhere fetches a third less.',
      'Where a stretch ends the place to gather is as steep and as bad as the worse side; which side it was hung on rounding.',
      'A hole in a raster that was filled with zeros is a grave warning with its place; it looked like flat, safe ground.',
      'Where two rasters cover the line and differ, it is said how much, how far and where it is most.',
      'What is doubtful about a line (gaps, jumps, points at 0, 0) is asked on the command line too, and answered by --answer.',
      'A turn-round time before the start is none: it is said that the way back alone takes too long.',
      'What is wrong in a project file is said with what was expected and what was found.',
      'Small ups and downs set to 0 m: descents count again in climbs and times.',
      'On the sheet unknown is "?", not computed is "n/c", and a stretch of seconds takes "<1" minutes, not 0.',
      'The ledger and the sheet say what steps that the raster cannot show add to the slope.',
      'The caution stands at the foot of the whole page, on a phone too; the watched team walks along the ribbon.',
    ],
  },
  {
    on: '2026-11-26',
    changes: [
      'The work has five parts: Prepare, Ledger, What if, On the way and Projects; the lines of a project stand side by side.',
      'The slip card says what a weaker or a stronger team would change.',
      'A recorded day tells your own walking pace by the grade of the way; it is kept with the project.',
      'Down another line: the way back is planned on its own ground.',
      'The demo is a shorter day, and its sheet is one page.',
      'Overleaf the sheet has room to write what was found on every segment, and what the hours go to.',
      'The map moves more smoothly where the machine draws it by software.',
    ],
  },
  {
    on: '2026-11-25',
    changes: [
      'First version: draw or open a line, open an elevation raster, describe team and snow, and every stretch gets the quickest technique that would hold.',
      'The sheet prints on A4, Letter and pocket size, with the technique under every other snow beside it.',
      'A track that is cut off, has gaps or jumps, or several lines is asked about before it is planned; a small picture shows what is meant.',
      'Coordinates in the wrong order and elevations in feet are noticed when a raster is open.',
      'Saved files have names that every device takes.',
    ],
  },
];
