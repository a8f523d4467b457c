import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sections } from '../../../src/rooms/house/sections/sections.js';
import { studioBook } from '../../../src/storage/books/studio-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const the = () => studioBook.the(studio.read);
/** The fields of a subject's form as the page has them. */
const fieldsOf = async (path: string): Promise<Record<string, string>> => {
  const said = (await studio.api('GET', `/api/house/${path}`)).json() as Record<string, string | boolean>;
  const plain = (name: string, value: string | boolean) =>
    name.endsWith('Share') ? String(Number(value) * 100) : value === true ? 'yes' : String(value || '');
  return Object.fromEntries(Object.entries(said).map(([name, value]) => [name, plain(name, value)]));
};
const change = async (path: string, fields: Record<string, string>) =>
  studio.post(`/house/${path}`, { once: randomUUID(), ...(await fieldsOf(path)), ...fields });

describe('the House room', () => {
  it('is a table of contents with what stands there now', async () => {
    const { text } = await studio.get('/house');
    for (const path of ['identity', 'units', 'tax', 'pricing', 'quotes', 'hours', 'making', 'backup'])
      expect(text).toContain(`href="/house/${path}"`);
    expect(text).toContain('EUR; cm and m; Europe/Dublin');
    expect((await studio.get('/house/no-such-page')).status).toBe(404);
  });

  it.each(sections.map(({ path }) => path))('shows and keeps the page %s as it stands', async (path) => {
    const before = await the();
    expect((await studio.get(`/house/${path}`)).status).toBe(200);
    const answer = await change(path, {});
    expect(answer.status).toBe(303);
    const after = await the();
    expect(JSON.stringify({ ...after, version: 0 })).toBe(JSON.stringify({ ...before, version: 0 }));
  });

  it('changes a subject, says so, and undoes it', async () => {
    const answer = await change('identity', {
      name: 'Quillmere & Daughter',
      accent: 'indigo',
      sheet: 'Letter',
    });
    const page = await studio.get(String(answer.headers.location));
    expect(page.text).toContain('Changed the house: name and letterhead');
    expect(page.text).toContain('data-accent="indigo"');
    expect((await the()).sheet).toBe('Letter');
    const act = new URL(String(answer.headers.location), 'http://x').searchParams.get('done');
    await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/house' });
    expect((await the()).identity.name).toBe('Quillmere Workroom');
  });

  it('says a margin as a markup and a markup as a margin', async () => {
    expect((await studio.get('/house/pricing')).text).toContain('a markup of 11.11 % on the cost');
    const fields = { ...(await fieldsOf('pricing')), profitBasis: 'markup', profitShare: '25' };
    const { text } = await studio.post('/house/pricing/other-profit', fields);
    expect(text).toContain('a margin of 20 % of the price');
    expect((await studio.post('/house/pricing/other-profit', { ...fields, profitShare: 'x' })).status).toBe(
      200,
    );
  });

  it.each([
    ['identity', 'name', '', 'Give the studio its name'],
    ['identity', 'name', 'x'.repeat(400), 'At most 200'],
    ['identity', 'email', 'nobody', 'has an @'],
    ['identity', 'accent', 'gold', 'Choose one'],
    ['units', 'currency', 'XYZ', 'not a currency code'],
    ['units', 'zone', 'Mars/Olympus', 'time zones offered'],
    ['tax', 'category', 'Q', 'Choose what your work falls under'],
    ['pricing', 'profitShare', '100', 'below 100 %'],
    ['pricing', 'profitShare', '-1', 'from 0 to 1000'],
    ['pricing', 'minimumCharge', '1234567890123', 'too large'],
    ['pricing', 'minimumCharge', '1e308', 'not'],
    ['pricing', 'roundTo', '0', 'above 0'],
    ['pricing', 'depositShare', '101', 'from 0 to 100'],
    ['quotes', 'series', 'Q-{year}', 'has no counter'],
    ['quotes', 'series', '{{constructor}}', 'Use'],
    ['quotes', 'days', '0', 'At least 1'],
    ['hours', 'overruns', 'often', 'Choose one'],
  ])('refuses, at %s, %s of “%s” beside the field', async (path, field, typed, sentence) => {
    const before = await the();
    const answer = await change(path, { [field]: typed });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
    expect(answer.text).toContain(sentence);
    expect(await the()).toEqual(before);
  });

  it('takes tax rates of 0 and of 100 where they can be meant, and carries the caution', async () => {
    expect((await studio.get('/house/tax')).text).toContain('ask a licensed adviser');
    const registered = { registered: 'yes', taxNumber: 'IE1234567T', category: 'S' };
    expect((await change('tax', { ...registered, rate: '100' })).status).toBe(303);
    expect((await the()).tax.rate.toFixed()).toBe('100');
    const nought = await change('tax', { ...registered, rate: '0' });
    expect(nought.status).toBe(422);
    expect(nought.text).toContain('For 0 % choose zero rated');
    expect(
      (await change('tax', { ...registered, category: 'Z', rate: '0', pricesInclude: 'tax' })).status,
    ).toBe(303);
    expect((await the()).tax).toMatchObject({ category: 'Z', pricesInclude: 'tax', reason: '' });
    expect((await change('tax', { registered: 'no', category: 'E', reason: '' })).status).toBe(303);
    expect((await the()).tax.reason).toBe('Not registered for tax');
  });

  it('shows both versions when two people change it', async () => {
    const { version } = await the();
    const once = () => ({ once: randomUUID(), version: String(version), overruns: 'a-lot', bareTime: 'ask' });
    expect((await studio.post('/house/hours', once())).status).toBe(303);
    const second = await studio.post('/house/hours', { ...once(), overruns: 'no' });
    expect(second.status).toBe(409);
    expect(second.text).toContain('Somebody changed this meanwhile');
  });

  it('shows markup and template syntax as text', async () => {
    await change('identity', { address: '<script>1</script>\n{{constructor}}' });
    const { text } = await studio.get('/house/identity');
    expect(text).toContain('&lt;script&gt;');
    expect(text).toContain('{{constructor}}');
  });

  it('answers programs by subject, with If-Match, and refuses unknown fields by name', async () => {
    const read = await studio.api('GET', '/api/house/hours');
    const put = (body: object, tag: unknown) =>
      studio.api('PUT', '/api/house/hours', body, { 'if-match': String(tag) });
    const said = { overruns: 'no', bareTime: 'hours' };
    expect((await put(said, read.headers.etag)).json()).toEqual(said);
    expect((await put(said, read.headers.etag)).status).toBe(412);
    expect((await put({ ...said, mood: 1 }, '*')).json().errors[0].pointer).toBe('/mood');
    const pricing = (await studio.api('GET', '/api/house/pricing')).json();
    expect(pricing.profitShare).toBe('0.1');
    const half = await studio.api('PUT', '/api/house/pricing', {
      ...pricing,
      profitShare: 0.15,
      minimumCharge: '18.00',
    });
    expect(half.json()).toMatchObject({ profitShare: '0.15', minimumCharge: '18.00' });
    expect((await studio.api('POST', '/api/house', { name: 'B', maker: 'B', currency: 'EUR' })).status).toBe(
      409,
    );
  });

  it('takes back from a program what it answered, with nothing in place of what is not set', async () => {
    for (const { path } of sections) {
      const url = `/api/house/${path}`;
      const read = (await studio.api('GET', url)).json();
      const put = await studio.api('PUT', url, read);
      expect([path, put.json()]).toEqual([path, read]);
    }
    const pricing = (await studio.api('GET', '/api/house/pricing')).json();
    const none = await studio.api('PUT', '/api/house/pricing', { ...pricing, minimumCharge: '' });
    expect([none.status, none.json().minimumCharge]).toEqual([200, '']);
    const words = await studio.api('PUT', '/api/house/pricing', { ...pricing, minimumCharge: 'some' });
    expect(words.json().errors[0].pointer).toBe('/minimumCharge');
    expect((await studio.api('PUT', '/api/house/pricing', pricing)).json()).toEqual(pricing);
  });

  it('reads its figures in another currency until something is priced', async () => {
    expect((await change('units', { currency: 'KWD' })).status).toBe(303);
    const { identity, pricing } = await the();
    expect(identity.currency).toBe('KWD');
    expect([pricing.roundTo, pricing.minimumCharge].map(String)).toEqual(['0.001', '18.000']);
    expect((await change('units', { currency: 'EUR' })).status).toBe(303);
    expect((await the()).pricing.roundTo.toString()).toBe('0.01');
    const client = await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone' });
    const commission = await studio.api('POST', '/api/commissions', {
      clientId: client.json().id,
      garments: [{ typeId: 'waistcoat' }],
    });
    expect(commission.status).toBe(201);
    const refused = await change('units', { currency: 'GBP' });
    expect(refused.status).toBe(409);
    expect(refused.text).toContain('are kept in EUR already');
    expect((await the()).identity.currency).toBe('EUR');
  });
});
