import { describe, expect, test } from 'vitest';
import { cellCentre } from '../../../../src/core/domain/raster';
import { opened, readWhole, refused } from './read-whole';

const text = (words: string) => new TextEncoder().encode(words);
const utm = { crs: 'EPSG:32632' } as const;
const header = (more = '') => `ncols 3\nnrows 2\nxllcorner 500000\nyllcorner 5100000\ncellsize 10\n${more}`;

describe('ESRI ASCII grid', () => {
  test('corner of the south-west cell, rows from the north', async () => {
    const raster = await opened(
      text(`${header('NODATA_value -1\n')}1000 1001 1002\n1010 -1 1012\n`),
      utm,
      'a.asc',
    );
    expect([...(await readWhole(raster))]).toEqual([1000, 1001, 1002, 1010, NaN, 1012]);
    expect(cellCentre(raster.affine, [0, 0])).toEqual([500005, 5100015]);
    expect(cellCentre(raster.affine, [2, 1])).toEqual([500025, 5100005]);
  });

  test('centre of the south-west cell, capitals, any order, numbers over any lines', async () => {
    const grid =
      'NROWS 2\nNCOLS 3\nCELLSIZE 10\nYLLCENTER 5100000\nXLLCENTER 500000\n1000\n1001 1002 1010\t1011\r\n1012';
    const raster = await opened(text(grid), utm, 'a.asc');
    expect([...(await readWhole(raster))]).toEqual([1000, 1001, 1002, 1010, 1011, 1012]);
    expect(cellCentre(raster.affine, [0, 1])).toEqual([500000, 5100000]);
  });

  test('without a coordinate system it is asked for', async () => {
    const problem = await refused(text(`${header()}1 2 3 4 5 6`), {}, 'a.asc');
    expect(problem).toMatchObject({ code: 'CRS-001', question: { kind: 'crs' } });
  });

  test.each([
    ['too few numbers', `${header()}1 2 3 4 5`, 'ASC-002', /ends after 5 of 6/],
    ['too many numbers', `${header()}1 2 3 4 5 6 7`, 'ASC-002', /goes on/],
    ['a decimal comma', `${header()}1 2 3 4 5,5 6`, 'ASC-002', /"5,5" is no number/],
    ['a word among the cells', `${header()}1 2 3 none 5 6`, 'ASC-002', /"none"/],
    ['no size', 'ncols 3\ncellsize 10\nxllcorner 1\nyllcorner 1\n1 2 3', 'ASC-001', /columns and rows/],
    ['no cell size', 'ncols 3\nnrows 1\nxllcorner 1\nyllcorner 1\n1 2 3', 'ASC-001', /how large/],
    ['no corner', 'ncols 3\nnrows 1\ncellsize 10\n1 2 3', 'ASC-001', /south-west corner/],
    ['a key twice', `${header('ncols 3\n')}1 2 3 4 5 6`, 'ASC-001', /twice/],
    [
      'a size of nothing',
      `ncols 0\nnrows 2\nxllcorner 1\nyllcorner 1\ncellsize 1\n`,
      'ASC-001',
      /columns and rows/,
    ],
    ['more cells than the file can hold', header().replace('ncols 3', 'ncols 300000'), 'ASC-002', /claims/],
    ['more cells than are held', header().replace('ncols 3', 'ncols 300000000'), 'TIF-005', /claims/],
  ] as const)('%s', async (_, grid, code, title) => {
    const problem = await refused(text(grid), utm, 'a.asc');
    expect(problem.code).toBe(code);
    expect(problem.title).toMatch(title);
  });
});

function tile(side: number, cell: (col: number, row: number) => number): Uint8Array {
  const view = new DataView(new ArrayBuffer(side * side * 2));
  for (let row = 0; row < side; row++)
    for (let col = 0; col < side; col++) view.setInt16((row * side + col) * 2, cell(col, row));
  return new Uint8Array(view.buffer);
}

describe('.hgt tile', () => {
  const bytes = tile(1201, (col, row) => (col === 3 && row === 700 ? -32768 : col + row));

  test('the name gives the south-west corner; outer cells lie on the degree lines', async () => {
    const raster = await opened(bytes, {}, 'N46E007.hgt');
    const near = (xy: readonly number[], place: readonly number[]) =>
      xy.forEach((value, i) => expect(value).toBeCloseTo(place[i] ?? NaN, 12));
    near(cellCentre(raster.affine, [0, 1200]), [7, 46]);
    near(cellCentre(raster.affine, [1200, 0]), [8, 47]);
    const cells = await readWhole(raster);
    expect(cells[1200 * 1201 + 1200]).toBe(2400);
    expect(cells[5 * 1201 + 900]).toBe(905);
    expect(Number.isNaN(cells[700 * 1201 + 3])).toBe(true);
    expect(cells.filter(Number.isNaN).length).toBe(1);
  });

  test.each([
    ['S34W072.hgt', [-72, -34]],
    ['s01_e036_1arc_v3.hgt', [36, -1]],
  ] as const)('%s', async (name, [west, south]) => {
    const raster = await opened(bytes, {}, name);
    const [x, y] = cellCentre(raster.affine, [0, 1200]);
    expect(x).toBeCloseTo(west, 12);
    expect(y).toBeCloseTo(south, 12);
  });

  test('of another size, or without a place in its name: refused', async () => {
    expect(await refused(bytes.subarray(2), {}, 'N46E007.hgt')).toMatchObject({ code: 'HGT-001' });
    expect(await refused(bytes, {}, 'alps.hgt')).toMatchObject({ code: 'HGT-002' });
  });
});
