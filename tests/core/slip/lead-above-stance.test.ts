import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { leadAboveStance } from '../../../src/core/slip/lead-above-stance';
import { followPitch, random } from './second-opinion';
import { dry, teamOf, unbreakable, withStrength } from './teams';

const party = teamOf('expert', 'solid', 'solid');
const question = { party, variant: 'running', snow: dry('P'), slopeDeg: 35, betaDeg: 0 } as const;
const unheld = (more: object = {}, spacingM = 12) => leadAboveStance({ ...question, ...more }, spacingM);

describe('a slip of the lead above a gathering, before the first piece', () => {
  test('is held better by two pieces than by one, by strong ones than by weak ones', () => {
    const usual = unheld();
    expect(usual.twoPiecesPct).toBeLessThan(usual.onePiecePct);
    const weak = unheld({ figures: withStrength(defaultFigures, 0.4) });
    expect(weak.onePiecePct).toBeGreaterThan(usual.onePiecePct);
    expect(weak.twoPiecesPct).toBeGreaterThan(usual.twoPiecesPct);
  });

  test('is held by pieces that nothing breaks', () => {
    expect(unheld({ figures: unbreakable })).toEqual({ onePiecePct: 0, twoPiecesPct: 0 });
  });

  test('going down the rope runs up to the stance: hardly a fall', () => {
    expect(unheld({ goingDown: true }).onePiecePct).toBeLessThan(unheld().onePiecePct / 2);
  });

  test('as a second program has it, with chance of its own', () => {
    const next = random(11);
    const normal = () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
    const triangular = (low: number, mode: number, high: number) => {
      const u = next();
      const peak = (mode - low) / (high - low);
      return u < peak
        ? low + Math.sqrt(u * (high - low) * (mode - low))
        : high - Math.sqrt((1 - u) * (high - low) * (high - mode));
    };
    const count = 3000;
    const lost = { one: 0, two: 0 };
    for (let i = 0; i < count; i++) {
      const chance = {
        slopeDeg: 35 + 1.5 * normal(),
        muSlide: triangular(0.05, 0.12, 0.25),
        muArrest: triangular(0.45, 0.7, 0.95),
        modulusN: 1000 * triangular(9.81, 15.518, 24.08),
        slackM: triangular(0.3, 0.8, 2),
        past: next(),
        climbers: [{ massKg: 90, arrests: next() < 0.95, ready: true, reactionS: triangular(0.5, 1, 2) }],
        strengthN: [],
      };
      const pieceN = 1000 * Math.min(6.4, 5 * Math.exp(0.4 * normal()));
      const isLost = (strengthN: number) =>
        followPitch({ pitchM: 12, betaDeg: 0, strengthN: [strengthN] }, chance, 0).end === 'unheld';
      if (isLost(pieceN / 1.8)) lost.one++;
      if (isLost(pieceN)) lost.two++;
    }
    const { onePiecePct, twoPiecesPct } = unheld({ slipsPerClimber: 4096, figures: defaultFigures });
    expect(Math.abs(onePiecePct - (100 * lost.one) / count)).toBeLessThan(3);
    expect(Math.abs(twoPiecesPct - (100 * lost.two) / count)).toBeLessThan(3);
    expect(onePiecePct).toBeGreaterThan(5);
  });
});
