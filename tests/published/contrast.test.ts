import { expect, test } from 'vitest';
import { contrast } from '../app/look/contrast';

/**
 * W3C, Web Content Accessibility Guidelines 2.2: black on white is 21 to 1 (by definition). The others are worked from its
 * formula; #767676 is commonly named as the lightest grey that reaches 4.5 on white, #949494 that which reaches 3.
 */
test.each([
  ['#000000', '#ffffff', 21],
  ['#767676', '#ffffff', 4.542],
  ['#777777', '#ffffff', 4.478],
  ['#949494', '#ffffff', 3.033],
  ['#0000ff', '#ffffff', 8.592],
  ['#ff0000', '#ffffff', 3.998],
])('%s on %s', (a, b, ratio) => {
  expect(Math.abs(contrast(a, b) - ratio)).toBeLessThan(0.0006);
});
