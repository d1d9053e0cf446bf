import { expect, test } from 'vitest';
import SlipCard from '../../src/app/slip-card/SlipCard.svelte';
import { figures, madeUpPlan, madeUpProject } from '../app/fixture/made-up-plan';
import { galleryPage } from './page';

const plan = madeUpPlan();
const card = (index: number) => {
  const segment = plan.segments[index];
  if (!segment) throw new Error('the made-up plan has nine segments');
  return {
    segment,
    plan,
    figures,
    party: madeUpProject.party,
    units: 'metric' as const,
    onOverride: () => undefined,
    onAssumptions: () => undefined,
  };
};

test('five techniques compared above an injuring run-out', async () => {
  await expect(galleryPage(SlipCard, card(3))).toMatchFileSnapshot('output/slip-card.html');
});

test('nothing to compare where nothing holds, in glare', async () => {
  await expect(galleryPage(SlipCard, card(7), 'glare')).toMatchFileSnapshot(
    'output/slip-card-none-holds.html',
  );
});
