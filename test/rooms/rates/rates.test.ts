import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ratesBook } from '../../../src/storage/books/rates-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

// Constructed case WS-1: pay 22,000; overhead 5,220; 46 weeks × 34 h × 62 %.
const WS1 = {
  name: 'Odalys Fenwright',
  pay: '22,000',
  weeks: '46',
  hoursAWeek: '34',
  productiveShare: '62 %',
  'overhead.0.name': 'Rent',
  'overhead.0.amount': '4,200.00',
  'overhead.1.name': 'Insurance',
  'overhead.1.amount': '',
  'overhead.3.name': 'Light and heat',
  'overhead.3.amount': '1020',
};
const hour = (fields: Record<string, string>) =>
  studio.post('/rates/hour', { once: randomUUID(), from: '2026-03-02', ...WS1, ...fields });

describe('the Rates room', () => {
  it('explains itself while there are no rates, and offers the one next step', async () => {
    const { text } = await studio.get('/rates');
    expect(text).toContain('Work out the hour');
    expect((await studio.api('GET', '/api/rates/in-force')).status).toBe(404);
    expect((await studio.get('/rates/machine')).headers.location).toBe('/rates/hour');
  });

  it('lays the hour open line by line, with the sum that tempts beside it (WS-1, WS-2)', async () => {
    const answer = await hour({ version: '0' });
    expect(answer.status).toBe(303);
    const { text } = await studio.get(String(answer.headers.location));
    for (const figure of ['1,564 h', '969.68 h', '22.69', '5.38', '€28.07', '€31.19', '€10.58'])
      expect(text).toContain(figure);
    expect(text).toContain('Set the rates from 2 March 2026');
    expect(text).not.toContain('Insurance');
    const card = (await studio.api('GET', '/api/rates/in-force')).json();
    expect(card.perHour).toBe('22.69');
    expect(card.overhead).toEqual([{ name: 'Workroom', base: 'productive-hours', rate: '5.38' }]);
    expect(card.hour).toEqual({ labour: '22.69', overhead: '5.38', total: '28.07' });
  });

  it('works the sum out while the form is being filled, and keeps nothing of it', async () => {
    const before = await ratesBook.all(studio.read);
    const { text } = await studio.post('/rates/hour/sum', { ...WS1, from: '2026-03-02', pay: '44000' });
    expect(text).toContain('<turbo-frame id="hour-sum">');
    expect(text).toContain('50.76');
    const empty = await studio.post('/rates/hour/sum', { name: 'A', from: '2026-03-02' });
    expect(empty.text).toContain('appears here when pay, weeks and hours are filled');
    expect(await ratesBook.all(studio.read)).toEqual(before);
  });

  it('are dated: a later card alters nothing before its day', async () => {
    const answer = await hour({ from: '2026-06-01', pay: '30000' });
    expect(answer.status).toBe(303);
    const on = async (day: string) =>
      (await studio.api('GET', `/api/rates/in-force?on=${day}`)).json().perHour;
    expect(await on('2026-05-31')).toBe('22.69');
    expect(await on('2026-06-01')).toBe('30.94');
    const { text } = await studio.get('/rates');
    expect(text).toContain('Earlier and later rates');
    expect(text).toContain('holds today');
    const act = new URL(String(answer.headers.location), 'http://x').searchParams.get('done');
    await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/rates' });
    expect(await on('2026-06-01')).toBe('22.69');
  });

  it('have several persons, one rate each, and a rate of its own for one kind of work', async () => {
    const add = {
      once: randomUUID(),
      from: '2026-03-02',
      name: 'Corvin',
      plainPerHour: '15',
      'mode-press': '12.50',
    };
    expect((await studio.post('/rates/people/new', add)).status).toBe(303);
    const card = await ratesBook.on(studio.read, '2026-03-02', 'Corvin');
    expect([card?.perHour, card?.perHourByMode.press].map(String)).toEqual(['15.00', '12.50']);
    expect((await studio.get('/rates')).text).toContain('at the press 12.50');
    expect((await studio.get('/rates/people/1')).text).toContain('value="12.50"');
    const twice = await studio.post('/rates/people/new', { ...add, once: randomUUID() });
    expect(twice.status).toBe(422);
    expect(twice.text).toContain('Somebody of this name');
    const gone = await studio.post('/rates/people/1/remove', { once: randomUUID() });
    expect(gone.status).toBe(303);
    expect((await ratesBook.on(studio.read, '2026-03-02', 'Corvin'))?.person).toBe('Odalys Fenwright');
  });

  it('cost the machine by wear, upkeep and power, and let a pool go by its hours', async () => {
    const machine = {
      once: randomUUID(),
      from: '2026-03-02',
      price: '1200',
      residualValue: '200',
      lifeHours: '4000',
      upkeepPerHour: '0.30',
      powerPerHour: '0.05',
      machineHoursAYear: '200',
    };
    expect((await studio.post('/rates/machine', machine)).status).toBe(303);
    const pooled = await hour({
      machineHoursAYear: '200',
      'overhead.4.name': 'Machine servicing',
      'overhead.4.amount': '100',
      'overhead.4.pool': 'Machine',
      'overhead.4.base': 'machine-hours',
    });
    expect(pooled.status).toBe(303);
    const card = (await studio.api('GET', '/api/rates/in-force')).json();
    expect(card.machinePerHour).toBe('0.60');
    expect(card.overhead[1]).toEqual({ name: 'Machine', base: 'machine-hours', rate: '0.5' });
  });

  it.each([
    ['pay', ''],
    ['pay', '1234567890123'],
    ['pay', '-5'],
    ['pay', '1e308'],
    ['weeks', 'NaN'],
    ['weeks', '0'],
    ['weeks', '54'],
    ['productiveShare', '101'],
    ['name', 'x'.repeat(400)],
    ['from', '2026-02-30'],
  ])('refuse %s of “%s” beside the field and keep what was typed', async (field, typed) => {
    const answer = await hour({ [field]: typed });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
    expect(answer.text).toContain('value="4,200.00"');
  });

  it('name the line of overhead that is at fault, closed up', async () => {
    const answer = await hour({ 'overhead.3.amount': 'lots' });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('href="#field-overhead.1.amount"');
    const orphan = await hour({ 'overhead.3.name': '' });
    expect(orphan.text).toContain('Name this cost.');
  });

  it('show markup and template syntax as text', async () => {
    await hour({ 'overhead.0.name': '<b>{{rent}}</b>' });
    const { text } = await studio.get('/rates');
    expect(text).toContain('&lt;b&gt;{{rent}}&lt;/b&gt;');
  });

  it('are set once when the button is pressed twice, and say so when somebody else was faster', async () => {
    const once = randomUUID();
    const before = (await ratesBook.all(studio.read)).length;
    const both = await Promise.all([1, 2].map(() => hour({ once })));
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect(await ratesBook.all(studio.read)).toHaveLength(before + 1);
    const stale = await hour({ version: String(before) });
    expect(stale.status).toBe(409);
    expect(stale.text).toContain('Somebody changed this meanwhile');
  });

  it('take a whole card from a program, and refuse unknown fields by name', async () => {
    const card = {
      from: '2027-01-01',
      people: [
        { name: 'Odalys', pay: 22000, year: { weeks: 46, hoursAWeek: '34', productiveShare: '0.62' } },
      ],
      overhead: [{ name: 'Rent', amount: '5220.00' }],
    };
    const made = await studio.api('POST', '/api/rates', card);
    expect(made.status).toBe(201);
    expect(made.json().hour.total).toBe('28.07');
    expect((await studio.api('GET', String(made.headers.location))).json().from).toBe('2027-01-01');
    const unknown = await studio.api('POST', '/api/rates', { ...card, wage: 1 });
    expect(unknown.json().errors[0].pointer).toBe('/wage');
    const wrong = await studio.api('POST', '/api/rates', { ...card, people: [{ name: 'A', pay: '-1' }] });
    expect(wrong.json().errors[0].pointer).toBe('/people/0/pay');
  });
});
