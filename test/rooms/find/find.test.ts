import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findAnything } from '../../../src/storage/finding/find-anything.js';
import { subjectUrl } from '../../../src/web/subject-url.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
let id: string;
beforeAll(async () => {
  studio = await openTestStudio();
  const add = async (name: string, phone = ''): Promise<string> => {
    const made = await studio.post('/clients', { once: randomUUID(), name, phone });
    return String(made.headers.location).split('?')[0]!.split('/').at(-1)!;
  };
  id = await add('Corvin Haddlestone', '555 0142');
  await add('Zoë Ångström');
  await add('ليلى حداد');
  await add('<i>Slanted</i> {{x}}');
  for (let place = 0; place < 10; place += 1) await add(`Many Times ${place}`);
});
afterAll(() => studio.close());

const find = async (asked: string): Promise<string> =>
  (await studio.get(`/find?q=${encodeURIComponent(asked)}`)).text;

describe('finding anything', () => {
  it('leads from a few letters, a number or a telephone number to the thing', async () => {
    for (const asked of ['haddle', 'C-0001', 'c-0001 corvin', '5550142', '0142'])
      expect([asked, (await find(asked)).includes(`href="/clients/${id}"`)]).toEqual([asked, true]);
  });

  it('overlooks accents and case, and reads other scripts', async () => {
    expect(await find('ZOE')).toContain('Zoë Ångström');
    expect(await find('حداد')).toContain('ليلى حداد');
  });

  it('draws the same page into its frame, and works without script', async () => {
    const text = await find('corvin');
    expect(text).toContain('data-type-to-find-frame-value="found"');
    expect(text).toContain('<turbo-frame id="found" target="_top">');
    expect(text).toContain('action="/find" method="get"');
  });

  it('keeps what was asked, as text, in both search fields', async () => {
    const text = await find('"><script>alert(1)</script> {{x}}');
    expect(text).not.toContain('<script>alert');
    expect(text.match(/value="&quot;&gt;&lt;script&gt;/g)).toHaveLength(2);
    expect(await find('slanted')).toContain('&lt;i&gt;Slanted&lt;/i&gt; {{x}}');
  });

  it('says so where nothing is found, nothing was asked, or there is more', async () => {
    expect(await find('nobody of this name')).toContain('Nothing of that name');
    for (const asked of ['', '   ']) expect(await find(asked)).toContain('Type a part of a name');
    expect(await find('many times')).toContain('There are more');
  });

  it.each(['%', '_', '\\', "' OR 1=1 --", 'x'.repeat(5000)])('takes %j calmly', async (asked) => {
    expect((await studio.get(`/find?q=${encodeURIComponent(asked)}`)).status).toBe(200);
    expect(await find(asked)).not.toContain('Zoë');
  });

  it('refuses a null character, which nobody types', async () => {
    expect((await studio.get('/find?q=%00')).status).toBe(422);
  });

  it('takes the question twice, and none at all', async () => {
    for (const url of ['/find', '/find?q=a&q=b', '/api/find?q[]=a'])
      expect([url, (await studio.api('GET', url)).status]).toEqual([url, 200]);
  });

  it('answers programs with what was found, by kind', async () => {
    const { kinds } = (await studio.api('GET', '/api/find?q=haddlestone')).json();
    expect(kinds).toEqual([
      {
        name: 'Clients',
        found: [{ text: 'Corvin Haddlestone', note: 'C-0001', about: `client/${id}` }],
        more: false,
      },
    ]);
  });

  it('asks any source it is given', async () => {
    const cloth = {
      name: 'Materials',
      find: async () => [{ text: 'Leadenhall tweed', about: 'material/1' }],
    };
    expect(await findAnything(studio.read, [cloth], 'tweed')).toEqual([
      { name: 'Materials', found: [{ text: 'Leadenhall tweed', about: 'material/1' }], more: false },
    ]);
  });

  it('is for those who are signed in', async () => {
    expect((await studio.get('/find?q=corvin', { cookie: '' })).status).toBe(303);
  });
});

it.each([
  ['client/1', '/clients/1'],
  ['commission/1', '/commissions/1'],
  ['commission/1/garment/2', '/commissions/1/garments/2'],
  ['commission/1/quote/2', '/commissions/1'],
  ['paper/1', '/papers/1'],
  ['commission/1/anything/2', '/commissions/1'],
  ['house', '/house'],
  ['rates/1', '/rates'],
  ['constructor', undefined],
  ['client/../x', '/clients/..'],
  ['material', undefined],
  ['', undefined],
])('what %s names is at %s', (about, url) => {
  expect(subjectUrl(about)).toBe(url);
});
