import { modes, type Mode } from '../../core/domain/mode';

export const themeNames = ['day', 'glare', 'night'] as const;
export type ThemeName = (typeof themeNames)[number];

/** Colours of one mode: the line on map and ribbon, the ink of its pattern and letters, the wash beneath the pattern. */
export interface ModeColours {
  readonly line: string;
  readonly ink: string;
  readonly wash: string;
}

export interface Theme {
  /** Behind everything, and behind panels' contents. */
  readonly paper: string;
  readonly panel: string;
  /** Text, and text of less weight: both read at 4.5 to 1. */
  readonly ink: string;
  readonly inkSoft: string;
  /** Hairlines between rows: decoration only. */
  readonly rule: string;
  /** Borders of controls, guides, graph lines: 3 to 1. */
  readonly edge: string;
  /** Behind what is selected or pointed at. */
  readonly wash: string;
  /** A mark of the heaviest warnings, and its background. */
  readonly alarm: string;
  readonly alarmWash: string;
  /** Around lines on the map. */
  readonly casing: string;
  readonly modes: Readonly<Record<Mode, ModeColours>>;
}

/**
 * Day: hues of Okabe and Ito's set for colour-blind readers (Color Universal Design, 2002; Wong, Nature Methods 8, 2011),
 * each with a darker ink of the same hue for patterns and letters.
 */
const day: Theme = {
  paper: '#f5f6f3',
  panel: '#fdfdfb',
  ink: '#1b2321',
  inkSoft: '#4a5551',
  rule: '#d3d9d4',
  edge: '#6c7773',
  wash: '#f6edc4',
  alarm: '#8f1d14',
  alarmWash: '#fbe9e4',
  casing: '#1b2321',
  modes: {
    roped: { line: '#009E73', ink: '#00614a', wash: '#cfe9de' },
    'running-belay': { line: '#0072B2', ink: '#00507d', wash: '#d3e4f0' },
    'pitched-belay': { line: '#D55E00', ink: '#8a3c00', wash: '#f9dcc6' },
    'belayed-crossing': { line: '#CC79A7', ink: '#84345f', wash: '#f4deea' },
    'none-holds': { line: '#000000', ink: '#000000', wash: '#ffffff' },
    'no-data': { line: '#767d7a', ink: '#59605d', wash: '#eceeec' },
  },
};

/** Glare: black on white, heavy, for sun on snow. */
const glare: Theme = {
  ...day,
  paper: '#ffffff',
  panel: '#ffffff',
  ink: '#000000',
  inkSoft: '#101010',
  rule: '#000000',
  edge: '#000000',
  wash: '#ffe97a',
  alarm: '#7a0f08',
  alarmWash: '#ffffff',
  casing: '#000000',
  modes: {
    roped: { line: '#009E73', ink: '#00392c', wash: '#d9f2e8' },
    'running-belay': { line: '#0072B2', ink: '#002f4b', wash: '#d9eaf6' },
    'pitched-belay': { line: '#D55E00', ink: '#4f2200', wash: '#ffe3cf' },
    'belayed-crossing': { line: '#CC79A7', ink: '#4d1735', wash: '#fae3ef' },
    'none-holds': { line: '#000000', ink: '#000000', wash: '#ffffff' },
    'no-data': { line: '#555555', ink: '#333333', wash: '#f2f2f2' },
  },
};

/** Night: only long wavelengths and little light, so that eyes stay used to the dark; modes by pattern and brightness. */
const night: Theme = {
  paper: '#0c0201',
  panel: '#140402',
  ink: '#ea5538',
  inkSoft: '#e65136',
  rule: '#4a1409',
  edge: '#b8402a',
  wash: '#2e0a04',
  alarm: '#ff7a5c',
  alarmWash: '#260702',
  casing: '#000000',
  modes: {
    roped: { line: '#a8371f', ink: '#dd4a30', wash: '#1f0603' },
    'running-belay': { line: '#c9432a', ink: '#e85033', wash: '#240703' },
    'pitched-belay': { line: '#ff7a5c', ink: '#ff7a5c', wash: '#2c0803' },
    'belayed-crossing': { line: '#e85033', ink: '#ee5a3d', wash: '#240703' },
    'none-holds': { line: '#ff9075', ink: '#ff9075', wash: '#0c0201' },
    'no-data': { line: '#a8371f', ink: '#d8482e', wash: '#140402' },
  },
};

export const themes: Readonly<Record<ThemeName, Theme>> = { day, glare, night };

/** A theme as CSS custom properties: `--ink`, `--mode-running-belay-wash` and so on. */
export function themeVariables(name: ThemeName): Readonly<Record<string, string>> {
  const { modes: modeColours, ...plain } = themes[name];
  const variables: Record<string, string> = {};
  for (const [key, value] of Object.entries(plain)) {
    variables[`--${key.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`] = value;
  }
  for (const mode of modes) {
    for (const [part, value] of Object.entries({ ...modeColours[mode] })) {
      variables[`--mode-${mode}-${part}`] = value;
    }
  }
  variables['--stroke'] = name === 'glare' ? '2px' : '1.25px';
  variables['color-scheme'] = name === 'night' ? 'dark' : 'light';
  return variables;
}

/** The same as one style attribute, for the page's root element. */
export const themeStyle = (name: ThemeName): string =>
  Object.entries(themeVariables(name))
    .map(([key, value]) => `${key}:${value}`)
    .join(';');
