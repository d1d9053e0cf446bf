import { describe, expect, test } from 'vitest';
import { themeNames, themes, themeVariables } from '../../../src/app/look/themes';
import { modes } from '../../../src/core/domain/mode';
import { contrast } from './contrast';

/** WCAG 2.2: 4.5 for text (1.4.3), 3 for lines, controls and drawings (1.4.11); 7 for text in glare (1.4.6). */
describe.each(themeNames)('%s', (name) => {
  const theme = themes[name];
  const text = name === 'glare' ? 7 : 4.5;
  const backgrounds = {
    paper: theme.paper,
    panel: theme.panel,
    wash: theme.wash,
    alarmWash: theme.alarmWash,
  };

  test.each(Object.entries(backgrounds))('text is read on %s', (_, background) => {
    expect(contrast(theme.ink, background)).toBeGreaterThanOrEqual(text);
    expect(contrast(theme.inkSoft, background)).toBeGreaterThanOrEqual(text);
  });

  test('controls and lines are seen on every background', () => {
    for (const background of Object.values(backgrounds)) {
      expect(contrast(theme.edge, background)).toBeGreaterThanOrEqual(3);
    }
  });

  test('words of alarm are read', () => {
    for (const background of [theme.paper, theme.panel, theme.alarmWash]) {
      expect(contrast(theme.alarm, background)).toBeGreaterThanOrEqual(text);
    }
  });

  test('a filled button reads as well', () => {
    expect(contrast(theme.panel, theme.ink)).toBeGreaterThanOrEqual(text);
  });

  test.each(modes)('the pattern of %s stands out from its wash and from the panel', (mode) => {
    const { ink, wash } = theme.modes[mode];
    expect(contrast(ink, wash)).toBeGreaterThanOrEqual(3);
    for (const background of [theme.paper, theme.panel, theme.wash]) {
      expect(contrast(ink, background)).toBeGreaterThanOrEqual(3);
    }
  });

  test.each(modes.filter((mode) => mode !== 'none-holds' && mode !== 'no-data'))(
    'the line of %s stands out from its casing',
    (mode) => {
      expect(contrast(theme.modes[mode].line, theme.casing)).toBeGreaterThanOrEqual(3);
    },
  );
});

test('letters on a ribbon field are read: they have a rim of the panel', () => {
  for (const name of themeNames)
    expect(contrast(themes[name].ink, themes[name].panel)).toBeGreaterThanOrEqual(4.5);
});

test('night shows long wavelengths only: green and blue stay far below red', () => {
  const { modes: modeColours, ...plain } = themes.night;
  const all = [...Object.values(plain), ...modes.flatMap((mode) => Object.values({ ...modeColours[mode] }))];
  for (const colour of all) {
    const [r, g, b] = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16)) as [
      number,
      number,
      number,
    ];
    expect(g).toBeLessThanOrEqual(0.6 * r);
    expect(b).toBeLessThanOrEqual(0.6 * r);
  }
});

/** Okabe and Ito, Color Universal Design (2002), as carried by R since 4.0 (palette "Okabe-Ito"). */
test('by day the modes have published hues for colour-blind readers', () => {
  const published = ['#009E73', '#0072B2', '#D55E00', '#CC79A7', '#000000'];
  const used = modes.filter((mode) => mode !== 'no-data').map((mode) => themes.day.modes[mode].line);
  expect(used).toEqual(published);
});

test('every theme names the same variables', () => {
  const [day, glare, night] = themeNames.map((name) => Object.keys(themeVariables(name)).sort());
  expect(glare).toEqual(day);
  expect(night).toEqual(day);
});
