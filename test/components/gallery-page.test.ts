import { afterAll, beforeAll, expect, it } from 'vitest';
import { galleryOf } from '../../src/printing/templates/gallery.js';
import { Templates } from '../../src/printing/templates/templates.js';
import { auditOf, look } from '../support/audit.js';
import { Stand } from './stand.js';

const gallery = new Templates('templates').render('house/gallery', {
  title: 'Gallery',
  room: 'bench',
  studio: 'Quillmere Workroom',
  signedInAs: 'Odalys Fenwright',
  nonce: 'n1',
  exhibits: galleryOf('templates'),
});

let stand: Stand;
beforeAll(async () => {
  stand = await Stand.open(() => ({ html: gallery }));
});
afterAll(() => stand.close());

it('an audit wide and narrow, light and dark, finds nothing', async () => {
  const tab = await stand.page('/');
  for (const width of [1280, 360]) {
    for (const scheme of ['light', 'dark'] as const) {
      await look(tab, width, scheme);
      const { broken, kept } = await auditOf(tab);
      expect(kept).toBeGreaterThan(20);
      expect(broken, `at ${width} px, ${scheme}`).toEqual([]);
    }
  }
  await tab.close();
}, 120_000);

it('nothing runs off the page at 320, 360 and 1280 px', async () => {
  const tab = await stand.page('/');
  for (const width of [320, 360, 1280]) {
    await look(tab, width, 'light');
    expect(await tab.evaluate('document.documentElement.scrollWidth'), `at ${width} px`).toBe(width);
  }
  await tab.close();
});

it('leaves room for a thimble: every control at least 44 px, at the bench 56 px', async () => {
  const tab = await stand.page('/', 360);
  const small =
    await tab.evaluate(`[...document.querySelectorAll('main button, main .button, main input:not([type=hidden], [type=checkbox], [type=radio]), main select, main textarea, main .tick')]
    .filter((each) => each.getBoundingClientRect().height < 56).map((each) => each.outerHTML)`);
  const rooms =
    await tab.evaluate(`[...document.querySelectorAll('.rooms a, .find input, .find button, .foot button')]
    .filter((each) => each.getBoundingClientRect().height < 44).map((each) => each.outerHTML)`);
  expect(small).toEqual([]);
  expect(rooms).toEqual([]);
  await tab.close();
});

it('asks nothing of anyone else, and the content security policy has nothing to say', async () => {
  const tab = await stand.page('/');
  const said: string[] = [];
  const asked: string[] = [];
  tab.on('console', (message) => ['error', 'warn'].includes(message.type()) && said.push(message.text()));
  tab.on('pageerror', (error) => said.push(String(error)));
  tab.on('request', (request) => asked.push(request.url()));
  await tab.reload({ waitUntil: 'networkidle0' });
  expect(said).toEqual([]);
  expect(asked.length).toBeGreaterThan(10);
  // A data: address is the browser's own drawing of a calendar; nothing is fetched for it.
  expect(asked.filter((url) => !url.startsWith(stand.address) && !url.startsWith('data:'))).toEqual([]);
  const fonts: unknown = await tab.evaluate(
    '[...document.fonts].filter((face) => face.status === "loaded").length',
  );
  expect(fonts).toBeGreaterThanOrEqual(3);
  await tab.close();
});
