import { resolve } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { dropFiles, dropTexts, loseGraphics, mapPoint, onPage, atRest } from '../browser/gestures';

/** One opening of the page, and the screens it goes through one after another. */
export interface Visit {
  readonly name: string;
  readonly about: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly isTouch?: boolean;
  /** Where the device says that it is. */
  readonly place?: { readonly longitude: number; readonly latitude: number; readonly accuracy: number };
  /** Before the page opens. */
  readonly prepare?: (context: BrowserContext) => Promise<unknown>;
  readonly screens: readonly Screen[];
}

type Show = (page: Page) => Promise<unknown>;
/** `show` goes there from the screen before. */
type Screen = readonly [name: string, shows: string, show: Show];

const samples = resolve(process.cwd(), 'sample-tracks');
const desk = { widthPx: 1280, heightPx: 800 };
const low = { widthPx: 800, heightPx: 500 };
const phone = { widthPx: 360, heightPx: 740, isTouch: true };

const inTurn =
  (...shows: readonly Show[]): Show =>
  async (page) => {
    for (const show of shows) await show(page);
  };
const rest =
  (ms: number): Show =>
  (page) =>
    page.waitForTimeout(ms);
const press =
  (name: string | RegExp): Show =>
  (page) =>
    page
      .getByRole('button', typeof name === 'string' ? { name, exact: true } : { name })
      .first()
      .click();
const turn =
  (name: string): Show =>
  (page) =>
    onPage(page, name);
const theme =
  (name: string): Show =>
  (page) =>
    page.getByLabel('Theme').selectOption(name);
const scroll =
  (selector: string, block: 'start' | 'center' | 'end' = 'start'): Show =>
  (page) =>
    page
      .locator(selector)
      .first()
      .evaluate((element, at) => element.scrollIntoView({ block: at }), block);
const unfold =
  (words: string): Show =>
  (page) =>
    page.locator('summary', { hasText: words }).click();

const opened: Show = async (page) => {
  await page.locator('.ledger table').first().waitFor({ state: 'attached' });
  await atRest(page);
  await page.waitForTimeout(3000);
};
const card = (segment: number): Show =>
  inTurn(
    turn('Ledger'),
    press(`Segment ${segment}, open its slip card`),
    (page) => page.locator('.slip-card article').first().waitFor(),
    rest(1000),
  );
const drop =
  (file: string): Show =>
  (page) =>
    dropFiles(page, [resolve(samples, file)]);

const drawn: Show = async (page) => {
  await page.getByRole('button', { name: 'Draw line' }).click();
  for (const [across, down] of [
    [0.45, 0.75],
    [0.55, 0.6],
    [0.5, 0.4],
  ] as const) {
    const { x, y } = await mapPoint(page, across, down);
    await page.mouse.move(x, y);
    await page.mouse.click(x, y);
    await page.waitForTimeout(400);
  }
  const { x, y } = await mapPoint(page, 0.6, 0.3);
  await page.mouse.move(x, y);
};

const softer: Show = inTurn(
  turn('Snow'),
  (page) => page.getByRole('radio', { name: /^one finger/ }).check(),
  atRest,
  rest(2500),
);

/** Two changes of snow through the day, the second on the upper half of the line. */
const dayFilled: Show = async (page) => {
  await onPage(page, 'Day');
  await page.getByRole('button', { name: 'Add a change' }).click();
  await page.getByRole('button', { name: 'Add a change' }).click();
  const second = page.getByRole('group', { name: 'Change 2' });
  await second.getByLabel('From this time on').fill('08:30');
  await second.getByLabel('From', { exact: true }).fill('2500');
  await second.getByLabel('Hardness').selectOption('1F');
  await second.getByLabel('Hardness').blur();
  await atRest(page);
};

export const visits: readonly Visit[] = [
  {
    name: 'desk',
    about: 'Laptop, 1280 x 800',
    ...desk,
    screens: [
      ['first', 'the first opening: the demo, planned', opened],
      ['ledger-segments', 'the ledger further down: segments', scroll('.ledger table', 'start')],
      ['slip-card', 'the slip card of a running belay, with run-out traces on the map', card(7)],
      ['slip-card-foot', 'its foot: what would change it, own choice', scroll('.slip-card .caution')],
      [
        'team-moving',
        'the team moving through that stretch',
        inTurn(
          unfold('Watch the team here'),
          (page) => page.getByLabel('Speed').selectOption('300'),
          press('Play'),
          rest(4000),
          press('Pause'),
          scroll('.player', 'center'),
        ),
      ],
      ['prepare', 'the preparation, and how each step stands', turn('Prepare')],
      ['line', 'Prepare: the line', turn('Line')],
      ['ground', 'Prepare: the ground', turn('Ground')],
      ['marks', 'Prepare: marks, one open', inTurn(turn('Marks'), unfold('Sagging in the middle'))],
      ['team', 'Prepare: the team', turn('Team')],
      ['snow', 'Prepare: the snow', turn('Snow')],
      ['day', 'Prepare: the day, with snow that changes', dayFilled],
      ['day-snow', 'its foot', scroll('[aria-label="Change 1"]', 'center')],
      ['figures', 'Prepare: every figure', turn('Figures')],
      ['what-if', 'What if, nothing kept yet', turn('What if')],
      ['way', 'On the way, not followed; afterwards', turn('On the way')],
      ['projects', 'Projects', turn('Projects')],
    ],
  },
  {
    name: 'map',
    about: 'The map and its tools, 1280 x 800',
    ...desk,
    screens: [
      ['look', 'the look of the map', inTurn(opened, press('Look of the map'))],
      [
        'slope',
        'slope tint with its legend',
        inTurn((page) => page.getByLabel(/slope/i).first().check(), press('Look of the map'), rest(3000)),
      ],
      ['help', 'help and keys', press('Help and keys')],
      [
        'search',
        'a place by its coordinates',
        inTurn(press('Close help'), press('Go to a place by coordinates')),
      ],
      ['marks-menu', 'marks to choose from', inTurn(press('Close'), press('Mark'))],
      ['save-menu', 'what can be saved', inTurn(press('Mark'), unfold('Save'))],
      [
        'points',
        'points being edited',
        inTurn((page) => page.keyboard.press('Escape'), press('Edit points')),
      ],
      ['drawing', 'a line being drawn', drawn],
      [
        'question',
        'a question about a track',
        inTurn(
          press('Finish'),
          atRest,
          press(/^Undo draw/),
          atRest,
          drop('ombry-recorded-day.gpx'),
          rest(1500),
        ),
      ],
      [
        'problems',
        'files that could not be opened',
        inTurn(
          press('Do not open'),
          (page) => dropTexts(page, { 'hello.tif': 'hello', 'empty.gpx': '<gpx></gpx>' }),
          (page) => page.getByRole('alert').nth(1).waitFor(),
        ),
      ],
      [
        '3d',
        'the same in three dimensions',
        inTurn(
          press('Put away'),
          press('Put away'),
          press('Look of the map'),
          (page) =>
            page
              .getByLabel(/3D|three/i)
              .first()
              .check(),
          press('Look of the map'),
          rest(15_000),
        ),
      ],
    ],
  },
  {
    name: 'compare',
    about: 'What if, 1280 x 800',
    ...desk,
    screens: [
      [
        'kept',
        'a plan kept, then softer snow',
        inTurn(opened, turn('What if'), press('Keep this plan to compare with'), softer, turn('What if')),
      ],
      ['ledger', 'the same differences in the ledger and above the ribbon', turn('Ledger')],
      [
        'rack',
        'more or fewer pickets',
        inTurn(
          turn('What if'),
          unfold('More or fewer pickets'),
          rest(500),
          scroll('figure[aria-label^="Time"]', 'center'),
        ),
      ],
      [
        'lines',
        'the lines side by side',
        inTurn(
          press('Plan them all'),
          (page) => page.getByRole('region', { name: 'Lines side by side, table' }).waitFor(),
          scroll('[aria-label="Other lines"]'),
        ),
      ],
      [
        'snow',
        'under other snow',
        inTurn(
          press('Plan for every snow'),
          (page) => page.getByRole('region', { name: 'Under other snow, table' }).waitFor(),
          scroll('[aria-label="Under other snow"]'),
        ),
      ],
      [
        'afterwards',
        'a recorded day laid over the plan',
        inTurn(
          press(/^Undo change snow/),
          atRest,
          drop('ombry-recorded-day.gpx'),
          press('The day as it was'),
          rest(2500),
          scroll('section[aria-label="Afterwards"]'),
        ),
      ],
      ['afterwards-foot', 'its foot', scroll('section[aria-label="Afterwards"]', 'end')],
      [
        'afterwards-taken',
        'the pace taken over',
        inTurn(
          press('Take these over as our own pace'),
          atRest,
          rest(2500),
          scroll('section[aria-label="Afterwards"]'),
        ),
      ],
    ],
  },
  {
    name: 'states',
    about: 'Empty, and without graphics, 1280 x 800',
    ...desk,
    screens: [
      [
        'empty',
        'a project without a line',
        inTurn(opened, turn('Projects'), press('New project'), rest(1500), turn('Ledger')),
      ],
      ['empty-prepare', 'its preparation', turn('Prepare')],
      [
        'flat',
        'graphics lost: the line in ink',
        inTurn(
          turn('Projects'),
          press('Open the demo'),
          turn('Ledger'),
          opened,
          (page) => loseGraphics(page, Infinity),
          rest(5000),
        ),
      ],
    ],
  },
  {
    name: 'no-map',
    about: 'The map could not be fetched, 1280 x 800',
    ...desk,
    prepare: (context) => context.route(/MapView.*\.js$/, (route) => route.abort()),
    screens: [['first', 'ledger and ribbon without it', opened]],
  },
  {
    name: 'loading',
    about: 'Before the first plan, 1280 x 800',
    ...desk,
    prepare: (context) =>
      context.route(/ombry-terrain/, async (route) => {
        await new Promise((done) => setTimeout(done, 6000));
        await route.continue();
      }),
    screens: [['first', 'the demo on its way', rest(3000)]],
  },
  {
    name: 'glare',
    about: 'Theme glare, 1280 x 800',
    ...desk,
    screens: [
      ['first', 'ledger', inTurn(opened, theme('glare'), rest(2500))],
      ['slip-card', 'slip card', card(7)],
      ['team', 'the team', turn('Team')],
    ],
  },
  {
    name: 'night',
    about: 'Theme night, 1280 x 800',
    ...desk,
    screens: [
      ['first', 'ledger', inTurn(opened, theme('night'), rest(3500))],
      ['slip-card', 'slip card', card(7)],
      ['snow', 'the snow', turn('Snow')],
    ],
  },
  {
    name: 'low',
    about: 'A low window, 800 x 500',
    ...low,
    screens: [
      ['first', 'ledger', opened],
      ['slip-card', 'slip card', card(7)],
      ['prepare', 'preparation', turn('Prepare')],
      ['snow', 'the snow', turn('Snow')],
      [
        'sheet',
        'the sheet',
        inTurn(press('Sheet'), (page) => page.locator('.sheet-view').waitFor(), rest(2500)),
      ],
    ],
  },
  {
    name: 'phone',
    about: 'A phone, 360 x 740',
    ...phone,
    place: { longitude: -21.3788, latitude: -48.4872, accuracy: 8 },
    screens: [
      ['first', 'map and ribbon', opened],
      ['ledger', 'pages half way up', inTurn(press('Put these words away'), press('Pull the pages up'))],
      ['slip-card', 'slip card', inTurn(press('Pull the pages all the way up'), card(7))],
      ['prepare', 'preparation', turn('Prepare')],
      ['team', 'the team', turn('Team')],
      ['day', 'the day', turn('Day')],
      ['what-if', 'What if', turn('What if')],
      ['way', 'On the way, followed', inTurn(turn('On the way'), press('Follow where I am'), rest(1500))],
      ['night', 'the same by night', inTurn(theme('night'), rest(500))],
    ],
  },
];
