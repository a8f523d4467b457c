import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aCommission, beginQuote, furnishHouse, issueQuote, setRates } from '../quotes/a-commission.js';

let studio: TestStudio;
let commission: Awaited<ReturnType<typeof aCommission>>;
const wordsOf = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
  await setRates(studio, '30.00');
  commission = await aCommission(studio, [{ name: 'Jacket', minutes: 600 }]);
  await issueQuote(studio, await beginQuote(studio, commission.url));
}, 120_000);
afterAll(() => studio.close());

describe('the history in words', () => {
  it('names the paper that keeps an earlier change on record', async () => {
    const [quote] = (await studio.api('GET', '/api/papers?q=corvin')).json().items;
    const { text } = await studio.get(`/history?about=commission/${commission.id}`);
    expect(wordsOf(text)).toContain(`Quote ${quote.number} was issued on it, so it stays on record.`);
  });

  it('shows no key, no document and no code to anybody', async () => {
    for (const url of ['/history', `/history?about=commission/${commission.id}`]) {
      const words = wordsOf((await studio.get(url)).text);
      expect(words).toContain('hand where it shows');
      expect(words).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}-7|[{[]&quot;|\bnull\b|undefined|hand-where/);
    }
  });

  it('leads from every act to a page that is there', async () => {
    const { text } = await studio.get('/history');
    const links = [...text.matchAll(/class="what"><a href="([^"]+)"/g)].map(([, href]) => href!);
    expect(links.length).toBeGreaterThan(3);
    for (const href of new Set(links)) expect([href, (await studio.get(href)).status]).toEqual([href, 200]);
    // What was done but leads nowhere: none.
    expect(text).not.toMatch(/class="what">[^<]/);
  });
});
