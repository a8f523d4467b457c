import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditInEverySight } from '../../../support/audit.js';
import { Maker } from '../../../support/maker.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';

/* A client standing there, in a real browser: Enter goes on, questions are answered on the page, script off is enough. */

let studio: TestStudio;
let address: string;
let maker: Maker;
let client: string;
let set: string;

beforeAll(async () => {
  studio = await openTestStudio();
  address = await studio.listen();
  client = String((await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone' })).json().id);
  const taken = await studio.api('POST', `/api/clients/${client}/measurements`, {
    takenOn: '2025-01-05',
    takenBy: 'Odalys Fenwright',
    garmentType: 'waistcoat',
    values: [
      { dimension: 'chest-girth', typed: '41 in' },
      { dimension: 'thigh-girth', typed: '60,4 cm' },
    ],
  });
  set = String(taken.json().id);
  maker = await Maker.sitDown(address, studio.cookie);
}, 120_000);
afterAll(async () => {
  await maker?.leave();
  await studio?.close();
});

const audit = async (what: string): Promise<string[]> => {
  const found = await auditInEverySight(maker.page, what);
  await maker.look(1280, false);
  return found;
};
const focused = () => maker.page.evaluate('document.activeElement?.name ?? ""');

describe('measuring at the table', () => {
  it('goes to the next line on Enter, asks on the page, and keeps what was answered', async () => {
    const found: string[] = [];
    await maker.open(`/clients/${client}/measurements/new`);
    await maker.page.focus('[name="v.chest-girth"]');
    for (const text of ['38 1/2', '37 in', 'wide']) {
      await maker.page.keyboard.type(text);
      await maker.page.keyboard.press('Enter');
    }
    expect(await focused()).toBe('v.shoulder-length');
    await maker.page.keyboard.down('Shift');
    await maker.page.keyboard.press('Enter');
    await maker.page.keyboard.up('Shift');
    expect(await focused()).toBe('v.hip-girth');
    await maker.write('extra.0.name', 'left cuff');
    await maker.write('extra.0.value', '9 in');
    await maker.press('Keep these measurements');
    expect(await maker.page.title()).toMatch(/^Error: /);
    found.push(...(await audit('measuring, refused')));
    await maker.write('v.hip-girth', '42 in');
    await maker.press('Keep these measurements');
    expect(await maker.text()).toContain('38 1/2: centimetres or inches?');
    found.push(...(await audit('measuring, asked')));
    await maker.page.click('[name="said.v.chest-girth"][value="38 1/2 in"]');
    await maker.page.click('[name="said.extra.0.name"]');
    await maker.press('Keep these measurements');
    expect(await maker.text()).toContain('Measured Corvin Haddlestone on');
    expect(await maker.text()).toContain('Left cuff');
    found.push(...(await audit('the set')));
    expect(found).toEqual([]);
  }, 180_000);

  it('has pages in which an audit finds nothing', async () => {
    const found: string[] = [];
    for (const path of [
      `/clients/${client}/measurements`,
      `/clients/${client}/measurements/${set}`,
      `/clients/${client}/measurements/new?again=${set}`,
      '/clients/measuring-lists',
      '/clients/measuring-lists/cape',
    ]) {
      expect(await maker.open(path), path).toBe(200);
      found.push(...(await audit(path)));
    }
    await maker.open('/clients/import');
    await maker.write(
      'pasted',
      'Name,Chest in,Email\nAda Sleeve,41 1/2,\nBea Gusset,,nonsense\nCorvin Haddlestone,104,\n',
    );
    await maker.press('Look at the columns');
    found.push(...(await audit('columns')));
    await maker.press('See what would be added');
    found.push(...(await audit('preview')));
    await maker.press('Add them');
    expect(await maker.page.title()).toMatch(/^Error: /);
    found.push(...(await audit('preview, refused')));
    expect(found).toEqual([]);
    expect(maker.strangers).toEqual([]);
  }, 240_000);

  it('is complete without script: Enter shows what is written so far and keeps nothing', async () => {
    const plain = await Maker.sitDown(address, studio.cookie, { script: false, width: 360 });
    try {
      const kept = async () =>
        (await studio.api('GET', `/api/clients/${client}/measurements`)).json().items.length as number;
      const before = await kept();
      await plain.open(`/clients/${client}/measurements/new?type=shirt`);
      await plain.page.focus('[name="v.neck-girth"]');
      await plain.page.keyboard.type('15 1/2 in');
      await Promise.all([plain.page.waitForNavigation(), plain.page.keyboard.press('Enter')]);
      expect(await plain.page.$eval('[name="v.neck-girth"]', (one) => one.getAttribute('value'))).toBe(
        '15 1/2 in',
      );
      expect(await kept()).toBe(before);
      await Promise.all([plain.page.waitForNavigation(), plain.page.click('button.main')]);
      expect(await kept()).toBe(before + 1);
    } finally {
      await plain.leave();
    }
  }, 120_000);
});
