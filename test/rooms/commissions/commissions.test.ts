import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission, openingFields } from './an-opening.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('opening a commission', () => {
  it('takes one press from nothing to three garments with their plans, and one to undo it', async () => {
    const answer = await studio.post(
      '/commissions',
      openingFields({
        client: 'Zoë Ångström',
        'garments.1.type': 'waistcoat',
        'garments.1.due': '1 Oct',
        'garments.4.type': 'breeches',
        'garments.4.name': 'breeches for the hills',
      }),
    );
    expect(answer.status).toBe(303);
    const url = String(answer.headers.location);
    const { text } = await studio.get(url);
    expect(text).toContain('C-2026-001');
    expect(text).toContain('Lounge jacket, waistcoat and breeches for the hills');
    expect(text).toContain('1 October 2026');
    expect(text).toContain('with 3 garments');
    const [commission] = url.split('?') as [string];
    const { garments } = (await studio.api('GET', `/api${commission}`)).json();
    expect(garments.map(({ place, make }: { place: number; make: string }) => [place, make])).toEqual([
      [1, 'hand-where-it-shows'],
      [2, 'hand-where-it-shows'],
      [3, 'hand-where-it-shows'],
    ]);
    expect(text).not.toContain('no plan yet');
    const act = new URL(url, 'http://x').searchParams.get('done');
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/' })).status).toBe(303);
    expect((await studio.get(commission)).status).toBe(404);
  });

  it('asks before somebody new is added, and keeps what was typed', async () => {
    const fields = openingFields({ client: 'Nobody Yet', 'garments.0.wearer': 'Nobody Either' });
    const asked = await studio.post('/commissions', { ...fields, 'confirm.client': 'no' });
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('Nobody called “Nobody Yet” is in the book yet');
    expect(asked.text).toContain('name="confirm.garments.0.wearer"');
    expect(asked.text).toContain('value="Nobody Yet"');
    expect((await studio.api('GET', '/api/clients?q=nobody')).json().items).toEqual([]);
    const yes = await studio.post('/commissions', {
      ...fields,
      once: randomUUID(),
      'confirm.garments.0.wearer': 'yes',
    });
    expect(yes.status).toBe(303);
    expect((await studio.api('GET', '/api/clients?q=nobody')).json().items).toHaveLength(2);
  });

  it('finds a client by number, by the whole name, and asks which of two is meant', async () => {
    for (const name of ['Mara Thorne', 'Mara Thornedale']) await studio.api('POST', '/api/clients', { name });
    const exact = await openCommission(studio, { client: 'mara thorne', 'confirm.client': 'no' });
    expect((await studio.get(exact)).text).toContain('>Mara Thorne<');
    const two = await studio.post('/commissions', openingFields({ client: 'mara', 'confirm.client': 'no' }));
    expect(two.status).toBe(422);
    expect(two.text).toMatch(/Several people may be meant: Mara Thorne, C-\d+; Mara Thornedale, C-\d+/);
    const code = /Mara Thornedale, (C-\d+)/.exec(two.text)![1]!;
    const byCode = await openCommission(studio, { client: `Mara, ${code}`, 'confirm.client': 'no' });
    expect((await studio.get(byCode)).text).toContain('>Mara Thornedale<');
  });

  it('asks for a client and a garment, beside the fields', async () => {
    const answer = await studio.post('/commissions', {
      once: randomUUID(),
      client: '',
      'garments.3.name': 'odd',
    });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('<title>Error:');
    expect(answer.text).toContain('Who is it for?');
    expect(answer.text).toContain('Choose a garment type.');
    expect(answer.text).toContain('name="garments.0.name" type="text" value="odd"');
    const none = await studio.post('/commissions', { once: randomUUID(), client: 'X' });
    expect(none.text).toContain('a commission holds at least one garment');
  });

  it('refuses a thirteenth garment, an unknown type, a day that is not on the calendar', async () => {
    const many = Object.fromEntries(
      Array.from({ length: 13 }, (_, place) => [`garments.${place}.type`, 'shirt']),
    );
    const answer = await studio.post('/commissions', openingFields(many));
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('at most 12 garments');
    const wrong = await studio.post(
      '/commissions',
      openingFields({ 'garments.0.type': 'doublet', 'garments.0.due': '31 Feb' }),
    );
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('not on the calendar');
    const type = await studio.post('/commissions', openingFields({ 'garments.0.type': 'doublet' }));
    expect(type.status).toBe(422);
    expect(type.text).toContain('There is no such garment type.');
    expect((await studio.api('GET', '/api/commissions?q=doublet')).json().items).toEqual([]);
  });

  it('keeps other scripts, markup and template syntax as text, and says when a name is too long', async () => {
    const title = '<b>ثوب</b> {{constructor}}';
    const { text } = await studio.get(await openCommission(studio, { title }));
    expect(text).toContain('&lt;b&gt;ثوب&lt;/b&gt; {{constructor}}');
    const long = await studio.post('/commissions', openingFields({ title: 'x'.repeat(401) }));
    expect(long.status).toBe(422);
    expect(long.text).toContain('At most 400 characters.');
  });

  it('is done once when the button is pressed twice at once', async () => {
    const fields = openingFields({ title: 'Pressed twice' });
    const both = await Promise.all([1, 2].map(() => studio.post('/commissions', fields)));
    expect(new Set(both.map(({ headers }) => headers.location)).size).toBe(1);
    expect((await studio.api('GET', '/api/commissions?q=pressed+twice')).json().items).toHaveLength(1);
  });
});

describe('the list of commissions', () => {
  it('stands newest first, is paged by key, and is found by number, title and client', async () => {
    await openCommission(studio, { client: 'Listed Person', title: 'Needle case' });
    const found = await studio.get('/commissions?q=listed+needle');
    expect(found.text).toContain('Needle case');
    expect((await studio.get('/commissions?q=zzz')).text).toContain('No commission of these words');
    for (let count = 0; count < 21; count += 1) await openCommission(studio, { title: `Cape ${count}` });
    const first = await studio.get('/commissions?q=cape');
    expect(first.text.indexOf('Cape 20')).toBeLessThan(first.text.indexOf('Cape 19'));
    const further = /href="(\/commissions\?[^"]*after=[^"]*)"/.exec(
      first.text.replaceAll('&#x3D;', '=').replaceAll('&amp;', '&'),
    );
    const second = await studio.get(further![1]!);
    expect(second.text).toContain('Cape 0');
    expect(second.text).not.toContain('Cape 20');
  });

  it('of one client only, with the way to open the next', async () => {
    const client = (await studio.api('POST', '/api/clients', { name: 'Only Mine' })).json();
    expect((await studio.get(`/commissions?client=${client.id}`)).text).toContain(
      'Nothing has been ordered yet',
    );
    await openCommission(studio, { client: 'Only Mine', title: 'Mine alone' });
    const { text } = await studio.get(`/commissions?client=${client.id}`);
    expect(text).toContain('Mine alone');
    expect(text).not.toContain('Cape 20');
    expect(text).toContain(`/commissions/new?client&#x3D;${client.id}`);
    expect((await studio.get(`/commissions/new?client=${client.id}`)).text).toContain('Only Mine, C-');
  });
});

describe('a commission', () => {
  it('is corrected, with another payer; a stale form shows both versions', async () => {
    const url = await openCommission(studio, { title: 'Before' });
    const form = await studio.get(`${url}/correct`);
    expect(form.text).toContain('value="Before"');
    const fields = { version: '1', client: 'Corvin Haddlestone', title: 'After', 'confirm.payer': 'yes' };
    const first = await studio.post(url, { once: randomUUID(), ...fields, payer: 'Quill Estate' });
    expect(first.status).toBe(303);
    expect((await studio.get(url)).text).toContain('Quill Estate');
    const second = await studio.post(url, { once: randomUUID(), ...fields, title: 'Other' });
    expect(second.status).toBe(409);
    expect(second.text).toContain('value="Other"');
    expect(second.text).toContain('<q>After</q>');
  });

  it('is priced by choices of its own, said in words', async () => {
    const url = await openCommission(studio);
    const form = await studio.get(`${url}/pricing`);
    expect(form.text).toContain('name="profitShare" type="text" class="figure short" value="10"');
    const fields = {
      version: '1',
      certainty: '0.9',
      profitBasis: 'markup',
      profitShare: '62,5',
      handlingShare: '15 %',
      minimumCharge: '18',
      rushShare: '25',
      rushOn: 'price',
      roundTo: '5',
      discount: '1,234.50',
      depositRule: 'materials-and-labour',
      depositShare: '30',
    };
    expect((await studio.post(`${url}/pricing`, { once: randomUUID(), ...fields })).status).toBe(303);
    const { text } = await studio.get(url);
    for (const words of [
      '9 in 10',
      '62.5 % of the cost',
      '€1,234.50',
      'all materials and 30 % of the labour',
    ])
      expect(text).toContain(words);
    for (const [name, value, said] of [
      ['profitShare', 'NaN', 'is not a percentage'],
      ['discount', '1e308', 'is not an amount'],
      ['discount', '-4', 'cannot be less than nought'],
      ['minimumCharge', '1234567890123', 'too large'],
      ['roundTo', '1.005', 'did you mean'],
    ] as const) {
      const refused = await studio.post(`${url}/pricing`, {
        once: randomUUID(),
        ...fields,
        version: '2',
        [name]: value,
      });
      expect([name, refused.status]).toEqual([name, 422]);
      expect(refused.text).toContain(said);
      expect(refused.text).toContain(`value="${value}"`);
    }
    const margin = await studio.post(`${url}/pricing`, {
      once: randomUUID(),
      ...fields,
      version: '2',
      profitBasis: 'margin',
      profitShare: '100',
    });
    expect(margin.status).toBe(422);
    expect(margin.text).toContain('must stay below 100 %');
  });
});

describe('commissions for programs', () => {
  it('are opened, read, corrected and priced, with versions', async () => {
    const client = (await studio.api('POST', '/api/clients', { name: 'By Program' })).json();
    const made = await studio.api('POST', '/api/commissions', {
      clientId: client.id,
      title: 'Sent',
      garments: [{ typeId: 'waistcoat', make: 'all-hand' }],
    });
    expect(made.status).toBe(201);
    expect(made.json()).toMatchObject({ title: 'Sent', discount: '0.00', garments: [{ name: 'waistcoat' }] });
    const url = String(made.headers.location);
    const priced = await studio.api(
      'PUT',
      `${url}/pricing`,
      {
        certainty: '0.5',
        profitBasis: 'margin',
        profitShare: '0.25',
        depositRule: 'none',
        discount: '12.50',
      },
      { 'if-match': '"1"' },
    );
    expect(priced.json()).toMatchObject({ version: 2, pricing: { profitShare: '0.25' }, discount: '12.50' });
    const stale = await studio.api('PUT', url, { clientId: client.id, title: 'X' }, { 'if-match': '"1"' });
    expect(stale.status).toBe(412);
    const added = await studio.api('POST', `${url}/garments`, { typeId: 'breeches' });
    expect(added.status).toBe(201);
    expect(await garmentsOf(studio, url.replace('/api', ''))).toHaveLength(2);
  });

  it('are refused field by field', async () => {
    const answer = await studio.api('POST', '/api/commissions', {
      clientId: 'x',
      garments: [],
      colour: 'red',
    });
    expect(answer.status).toBe(422);
    expect(answer.json().errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/garments',
      '/colour',
    ]);
    const nobody = await studio.api('POST', '/api/commissions', {
      clientId: randomUUID(),
      garments: [{ typeId: 'waistcoat' }],
    });
    expect(nobody.status).toBe(404);
  });
});
