import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bytesOf, furnishHouse, setRates } from '../rooms/quotes/a-commission.js';
import type { Hand } from '../support/hand.js';
import { Keyboard } from '../support/keyboard.js';
import { Maker } from '../support/maker.js';
import { openTestStudio, type TestStudio } from '../support/studio.js';
import { asks, changes, invoicesAPart, pays, quotesAndAccepts, reckons, works } from './a-whole-story.js';

/*
 * The same story twice over, in a real browser: with script off on a phone, and by keyboard alone at a desk. Enquiry,
 * quote as PDF, acceptance, time at the bench, a change, a part invoice, its payment, the reckoning.
 */

let studio: TestStudio;
let address: string;

beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio, { identity: { country: 'IE' } });
  await setRates(studio, '30.00');
  address = await studio.listen();
}, 120_000);

afterAll(() => studio?.close());

const tellWith = async (hand: Hand, name: string, way: readonly string[]): Promise<void> => {
  const commission = await asks(hand, name, way);
  const world = {
    forward: (minutes: number) => studio.clock.forward(minutes),
    bytes: (path: string) => bytesOf(studio, path),
  };
  const quoted = await quotesAndAccepts(hand, world, commission, name);
  await works(hand, world, commission);
  const extra = await changes(hand, commission, name);
  const due = await invoicesAPart(hand, world, commission);
  expect(due).toBeGreaterThan(extra);
  expect(due).toBeLessThan(quoted);
  await pays(hand, due);
  expect(await reckons(hand, commission, name)).toContain('Watch pocket');
};

describe('a commission from the enquiry to the reckoning', () => {
  it('is told whole with script off, on a phone', async () => {
    const maker = await Maker.sitDown(address, studio.cookie, { script: false, width: 360 });
    try {
      await tellWith(maker, 'Perpetua Lyle', ['Write the enquiry down', 'Write the first one down']);
      expect([maker.strangers, maker.complaints]).toEqual([[], []]);
    } finally {
      await maker.leave();
    }
  }, 240_000);

  it('is told whole by keyboard alone, at a desk', async () => {
    const maker = await Maker.sitDown(address, studio.cookie);
    try {
      const keyboard = new Keyboard(maker);
      await tellWith(keyboard, 'Corvin Haddlestone', ['Enquiries', 'Write an enquiry down']);
      expect([maker.strangers, maker.complaints]).toEqual([[], []]);
      console.log(`By keyboard, from the enquiry to the reckoning: ${keyboard.keys} keys.`);
    } finally {
      await maker.leave();
    }
  }, 240_000);
});
