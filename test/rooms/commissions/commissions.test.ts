import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { openCommission, openingFields } from './an-opening.js';

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
