import Papa from 'papaparse';

/** Positions as another reader of CSV finds them. Its records of one empty cell are empty lines. */
export function secondPoints(text: string): [lng: number, lat: number][] {
  const records = Papa.parse<string[]>(text.replaceAll(/\r\n?/g, '\n'), {
    delimiter: ',',
    newline: '\n',
  }).data;
  const [head = [], ...rest] = records.filter((cells) => cells.length > 1 || cells[0]?.trim() !== '');
  const names = head.map((name) => name.trim().toLowerCase());
  return rest.map((cells) => [
    Number(cells[names.indexOf('lon')]?.trim()),
    Number(cells[names.indexOf('lat')]?.trim()),
  ]);
}

interface Seen {
  texts: string[];
  line: string | null;
  json: boolean;
  stepM: number | null;
}

/** What a call says, read word by word: `--name value`, `--name=value`, `--elevation` with all words that follow it. */
export function secondArguments(words: readonly string[]): Seen {
  const seen: Seen = { texts: [], line: null, json: false, stepM: null };
  let open: string | null = null;
  const take = (name: string, value: string) => {
    if (name === 'elevation') seen.texts.push(value);
    if (name === 'line') seen.line = value;
    if (name === 'step') seen.stepM = Number(value);
  };
  for (const word of words) {
    const [, name, value] = /^--([^=]*)(?:=([^]*))?$/.exec(word) ?? [];
    if (name === undefined) {
      if (open !== null) take(open, word);
      if (open !== 'elevation') open = null;
    } else {
      if (name === 'json') seen.json = true;
      if (value !== undefined) take(name, value);
      open = value === undefined || name === 'elevation' ? name : null;
    }
  }
  return seen;
}
