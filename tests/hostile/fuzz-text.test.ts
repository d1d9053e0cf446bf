import { expect, test } from 'vitest';
import { Dice, mutated } from '../fuzz/mutate';
import { judge } from '../fuzz/text-case';
import { seeds, textKinds } from '../fuzz/text-seeds';

/** A small slice of `npm run fuzz`: enough to notice a reader that has come loose. */
const files = 1500;

test.each(textKinds)(
  '%s: changed files are refused by code, or read as a second reader reads them',
  async (kind) => {
    const dice = new Dice(20_310_514);
    const seen = { refused: 0, accepted: 0 };
    for (let i = 0; i < files; i++) {
      const bytes = mutated(seeds[kind], dice);
      const verdict = await judge(kind, bytes);
      if (verdict.kind === 'untyped' || verdict.kind === 'differs')
        throw new Error(`file ${i}: ${verdict.why}\n${new TextDecoder().decode(bytes)}`);
      seen[verdict.kind] += 1;
    }
    // Both ways must have been taken, or nothing was compared.
    expect(seen.refused).toBeGreaterThan(files / 10);
    expect(seen.accepted).toBeGreaterThan(files / 100);
  },
);

test.each(textKinds)('%s: the files to start from are read as a second reader reads them', async (kind) => {
  for (const bytes of seeds[kind]) expect(await judge(kind, bytes)).toEqual({ kind: 'accepted' });
});
