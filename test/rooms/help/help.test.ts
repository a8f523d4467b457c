import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHAPTERS } from '../../../src/domain/house/handbook.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('the handbook', () => {
  it('stands at the foot of every page and opens chapter by chapter', async () => {
    expect((await studio.get('/clients')).text).toContain('href="/help"');
    const contents = await studio.get('/help');
    for (const { slug, title } of CHAPTERS) {
      expect(contents.text).toContain(`href="/help/${slug}"`);
      const { status, text } = await studio.get(`/help/${slug}`);
      expect([slug, status, text.includes(`<h1>${title}</h1>`)]).toEqual([slug, 200, true]);
      expect(text).toContain('<p class="lead">');
      for (const [picture] of text.matchAll(/<img[^>]*>/g)) {
        expect(picture).toMatch(/ alt="[^"]{20,}"/);
        const src = /src="([^"]+)"/.exec(picture)![1]!;
        expect([src, (await studio.get(src)).status]).toEqual([src, 200]);
      }
    }
    expect((await studio.get('/help/no-such-chapter')).status).toBe(404);
  });

  it('is found from anywhere', async () => {
    const { text } = await studio.get('/find?q=passphrase+backup');
    expect(text).toContain('href="/help/the-house"');
  });
});
