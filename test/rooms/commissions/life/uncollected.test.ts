import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPdf } from '../../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { aCommission, bytesOf, furnishHouse, setRates } from '../../quotes/a-commission.js';

let studio: TestStudio;
let job: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
  await setRates(studio, '20.00');
  const order = await aCommission(studio, [
    { name: 'Waistcoat', minutes: 600, dueOn: '2026-02-27', ownPrice: '800.00' },
  ]);
  job = `${order.url}/garments/${order.garments[0]}`;
});
afterAll(() => studio.close());

describe('a garment that nobody collects', () => {
  it('has its dates and a draft of a notice, which is kept and printed as a letter', async () => {
    const { text } = await studio.get(`${job}/uncollected`);
    for (const words of [
      'Was to be ready',
      'has been ready since 27 February 2026',
      'by 1 April 2026',
      'uncollected goods need notice',
    ])
      expect(text).toContain(words);
    const words = 'Dear Corvin Haddlestone,\n\nYour waistcoat waits for you.';
    expect(
      (await studio.post(`${job}/uncollected`, { once: randomUUID(), words, on: '2026-03-02' })).status,
    ).toBe(303);
    const [, at] = /href="([^"]*\/notices\/[^"]*\.pdf)"/.exec((await studio.get(`${job}/uncollected`)).text)!;
    const pdf = await readPdf(await bytesOf(studio, at!));
    for (const said of [
      'Quillmere Workroom',
      'Corvin Haddlestone',
      'Your waistcoat waits for you.',
      '2 March 2026',
    ])
      expect(pdf.pages[0]).toContain(said);
    expect(
      (await studio.post(`${job}/uncollected`, { once: randomUUID(), words: ' ', on: '2026-03-02' })).status,
    ).toBe(422);
  });
});
