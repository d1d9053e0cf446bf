import type { Page } from 'playwright-core';
import { atRest } from '../browser/gestures';
import { soak } from './long-day';

export default () => soak({ name: 'page-visits', usually: 200 }, visiting);

/** The page is left and come back to; the work of the last visit is there each time. */
async function visiting(page: Page, times: number): Promise<number> {
  let done = 0;
  for (let i = 0; i < times; i++) {
    await page.reload();
    await page.locator('.ledger table tbody tr').first().waitFor();
    await atRest(page);
    done++;
  }
  return done;
}
