import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { applyFigures } from '../../../src/core/assumptions/apply';
import { catalogue } from '../../../src/core/assumptions/catalogue';
import { figureAt, figurePaths } from '../../../src/core/assumptions/figure-path';
import { defaultFigures } from '../../../src/core/assumptions/figures';

const codeOf = (overrides: Record<string, number>): string => {
  const applied = applyFigures(overrides);
  return applied.ok ? 'ok' : applied.problem.code;
};

describe('changed assumptions', () => {
  test('nothing changed gives the defaults', () => {
    expect(applyFigures({})).toEqual({ ok: true, value: defaultFigures });
  });

  test('a change reaches its figure and no other', () => {
    fc.assert(
      fc.property(fc.constantFrom(...catalogue), between(0, 1), (entry, share) => {
        const value = entry.min + share * (entry.max - entry.min);
        const applied = applyFigures({ [entry.key]: value });
        if (!applied.ok) return applied.problem.code === 'FIG-003';
        const changed = figurePaths(applied.value).filter(
          ([key, now]) => now !== figureAt(defaultFigures, key),
        );
        return changed.every(([key, now]) => key === entry.key && now === value);
      }),
      { numRuns: cases(1000) },
    );
  });

  test('a name that does not exist is refused, not passed over', () => {
    expect(codeOf({ 'snow.P.pieceKn': 4 })).toBe('FIG-001');
    expect(codeOf({ 'snow.P': 4 })).toBe('FIG-001');
    expect(codeOf(JSON.parse('{"__proto__": 1}') as Record<string, number>)).toBe('FIG-001');
    expect(codeOf({ constructor: 1 })).toBe('FIG-001');
  });

  test('a value out of range, or no number at all, is refused with its name', () => {
    expect(codeOf({ 'snow.P.pieceKN': -1 })).toBe('FIG-002');
    expect(codeOf({ 'snow.P.pieceKN': Infinity })).toBe('FIG-002');
    expect(codeOf({ 'snow.P.pieceKN': NaN })).toBe('FIG-002');
    const applied = applyFigures({ 'ability.solid.arrests': 1.2 });
    expect(applied).toMatchObject({ ok: false, problem: { place: 'ability.solid.arrests' } });
  });

  test('a spread whose least is more than its most is refused', () => {
    expect(codeOf({ 'snow.P.muSliding.low': 0.5 })).toBe('FIG-003');
    expect(codeOf({ 'snow.P.muSliding.low': 0.2, 'snow.P.muSliding.mode': 0.2 })).toBe('ok');
    expect(codeOf({ 'runOut.gentleMaxMS': 20 })).toBe('FIG-003');
  });

  test('the defaults are never touched', () => {
    const before = structuredClone(defaultFigures);
    applyFigures({ 'snow.P.pieceKN': 1, 'act.clip.high': 99 });
    expect(defaultFigures).toEqual(before);
  });
});
