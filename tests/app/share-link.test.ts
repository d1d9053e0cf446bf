import { deflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { forLink, linkMaxChars, linkOf, textOfLink } from '../../src/app/share-link';
import { readProject, writeProject } from '../../src/core/files/project';
import { madeUpProject } from './fixture/made-up-plan';

const text = (withNames = true): string => writeProject(forLink(madeUpProject, withNames));

/** Written by Node's zlib and Buffer, not by the page. */
const byHand = (content: string | Buffer): string =>
  `#plan=1.${deflateRawSync(content).toString('base64url')}`;

describe('a plan in a link', () => {
  test('comes out as it went in', async () => {
    const out = await textOfLink(await linkOf(text()));
    expect(out.ok && out.value).toBe(text());
    const read = out.ok && readProject(out.value, 'the link');
    expect(read && read.ok && read.value.project.marks).toEqual(madeUpProject.marks);
  });

  test('is read when another deflater made it, and stands in an address unescaped', async () => {
    const out = await textOfLink(byHand(text()));
    expect(out.ok && out.value).toBe(text());
    expect(await linkOf(text())).toMatch(/^#plan=1\.[\w-]+$/);
  });

  test('of usual length stays below what messengers cut', async () => {
    expect((await linkOf(text())).length).toBeLessThan(linkMaxChars);
  });

  test('may leave out names and notes', () => {
    for (const { name } of madeUpProject.party.climbers) expect(text(false)).not.toContain(`"${name}"`);
  });

  test.each([
    ['cut off', byHand(text()).slice(0, -40)],
    ['not base64', '#plan=1.%%%%'],
    ['not deflated', `#plan=1.${Buffer.from('hello there').toString('base64url')}`],
    ['of a later kind', '#plan=2.abcd'],
    ['too long', `#plan=1.${'A'.repeat(300_000)}`],
    ['a bomb', byHand(Buffer.alloc(64 * 2 ** 20))],
    ['not text', byHand(Buffer.from([0xff, 0xfe, 0xfd]))],
  ])('that is %s is refused with a remedy', async (_, hash) => {
    const out = await textOfLink(hash);
    expect(!out.ok && [out.problem.code, out.problem.remedy !== '']).toEqual(['LNK-001', true]);
  });
});
