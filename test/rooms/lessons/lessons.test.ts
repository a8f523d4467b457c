import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pastGarmentBook } from '../../../src/storage/books/past-garment-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const grid = (rows: Record<string, string>[], more: Record<string, string> = {}): Record<string, string> =>
  Object.assign(
    { once: randomUUID(), ...more },
    ...rows.map((row, place) =>
      Object.fromEntries(Object.entries(row).map(([name, value]) => [`totals.${place}.${name}`, value])),
    ),
  );
const bring = (rows: Record<string, string>[], more?: Record<string, string>) =>
  studio.post('/lessons/totals', grid(rows, more));
const lesson = async (id: string) => (await studio.api('GET', `/api/lessons/garment-types/${id}`)).json();
const undo = async (url: unknown) => {
  const act = new URL(String(url), 'http://x').searchParams.get('done');
  await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/lessons' });
};

describe('twenty totals from a notebook', () => {
  it('begins with starting values, and says so', async () => {
    const { text } = await studio.get('/lessons');
    expect(text).toContain('Write down past garments');
    expect(text).toContain('no garments and a starting plan of');
    expect(text).toContain('(starting value)');
    expect((await lesson('lounge-jacket')).belief.from).toBe('starting-value');
    expect((await studio.get('/lessons/totals')).text).toContain('name="totals.19.hours"');
  });

  // Closed form of the conjugate normal (Gelman et al., Bayesian Data Analysis, 2013, section 3.3), figures from R 4.2.2.
  it('give true hours per type at once, with the maker’s own guess as one garment', async () => {
    const guess = { once: randomUUID(), version: '0', hours: '50' };
    expect((await studio.post('/lessons/garment-types/waistcoat', guess)).status).toBe(303);
    const answer = await bring([
      { type: 'waistcoat', hours: '52.5' },
      {},
      { type: 'waistcoat', hours: '61', finished: '2 Feb 2026', note: 'the grey' },
      { type: 'waistcoat', hours: '48:00' },
      { type: 'waistcoat', hours: '70 1/2' },
    ]);
    expect(answer.status).toBe(303);
    const { text } = await studio.get(String(answer.headers.location));
    expect(text).toContain('Wrote down 4 past garments');
    expect(text).toContain('4 garments and your own guess of 50 h (ours)');
    const { garments, typical, next } = await lesson('waistcoat');
    expect(garments).toBe(4);
    expect(typical).toEqual({ middle: '55.8185', low80: '48.972', high80: '63.6221' });
    expect(next).toEqual({ '0.1': '40.511', '0.5': '55.8185', '0.8': '68.4485', '0.9': '76.91' });
    const type = await studio.get('/lessons/garment-types/waistcoat');
    expect(type.text).toContain('A typical waistcoat takes 56 h, most likely between 49 h and 64 h.');
    expect(type.text).toContain('2 February 2026');
    expect((await pastGarmentBook.totalsOf(studio.read, 'waistcoat'))[0]).toEqual({ minutes: 3150 });
    await undo(answer.headers.location);
    expect((await lesson('waistcoat')).garments).toBe(0);
  });

  // Constructed case WS-19: ratios 1.05, 1.10, 1.25, 1.40, 1.60 have the geometric mean 1.2646.
  it('say by how much plans are usually overrun', async () => {
    const answer = await bring(
      ['10.5', '11', '12.5', '14', '16'].map((hours) => ({ type: 'cape', hours, planned: '10' })),
    );
    expect((await lesson('cape')).overrun).toEqual({ garments: 5, ratio: '1.2646' });
    expect((await studio.get('/lessons')).text).toContain('26 % over, from 5');
    await undo(answer.headers.location);
  });

  it.each([
    [{ type: 'shirt', hours: '' }, 'totals.1.hours', 'Write the hours it took.'],
    [{ type: '', hours: '12' }, 'totals.1.type', 'Choose a garment type.'],
    [{ type: 'alteration', hours: '1' }, 'totals.1.type', 'the studio makes to a plan'],
    [{ type: 'no-such', hours: '1' }, 'totals.1.type', 'Choose a garment type'],
    [{ type: 'shirt', hours: '-4' }, 'totals.1.hours', 'less than nought'],
    [{ type: 'shirt', hours: '0' }, 'totals.1.hours', 'more than 0 hours'],
    [{ type: 'shirt', hours: '10001' }, 'totals.1.hours', 'At most 10,000'],
    [{ type: 'shirt', hours: '1e308' }, 'totals.1.hours', 'not a time'],
    [{ type: 'shirt', hours: 'NaN' }, 'totals.1.hours', 'not a time'],
    [{ type: 'shirt', hours: '12', planned: 'lots' }, 'totals.1.planned', 'not a time'],
    [{ type: 'shirt', hours: '12', finished: '2026-03-03' }, 'totals.1.finished', 'still to come'],
    [{ type: 'shirt', hours: '12', note: 'x'.repeat(400) }, 'totals.1.note', 'At most 200'],
  ])('answer a bad line %o by its line, and keep nothing of the rest', async (wrong, field, sentence) => {
    const before = await pastGarmentBook.all(studio.read);
    const answer = await bring([{ type: 'shirt', hours: '14', note: 'kept words' }, {}, wrong]);
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
    expect(answer.text).toContain(sentence);
    expect(answer.text).toContain('value="kept words"');
    expect(await pastGarmentBook.all(studio.read)).toEqual(before);
  });

  it('need at least one line', async () => {
    expect((await bring([{}])).text).toContain('Write down at least one garment.');
  });

  it('are kept once when the button is pressed twice', async () => {
    const once = randomUUID();
    const before = (await pastGarmentBook.all(studio.read)).length;
    const rows = [{ type: 'shirt', hours: '14', note: '<i>{{x}}</i> قميص' }];
    const both = await Promise.all([1, 2].map(() => bring(rows, { once })));
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect(await pastGarmentBook.all(studio.read)).toHaveLength(before + 1);
    expect((await studio.get('/lessons/garment-types/shirt')).text).toContain(
      '&lt;i&gt;{{x}}&lt;/i&gt; قميص',
    );
  });

  it('can be corrected, with both versions shown where two people did, and taken off', async () => {
    await bring([{ type: 'gown', hours: '80' }]);
    const [past] = await pastGarmentBook.ofType(studio.read, 'gown');
    const url = `/lessons/totals/${past!.id}`;
    const change = (hours: string) =>
      studio.post(url, { once: randomUUID(), version: '1', type: 'gown', hours });
    expect((await studio.get(url)).text).toContain('value="80"');
    expect((await change('90')).status).toBe(303);
    const stale = await change('95');
    expect(stale.status).toBe(409);
    expect(stale.text).toContain('<q>90</q>');
    expect((await studio.post(`${url}/remove`, { once: randomUUID(), version: '2' })).status).toBe(303);
    expect(await pastGarmentBook.ofType(studio.read, 'gown')).toEqual([]);
    expect((await studio.get(url)).status).toBe(404);
  });

  it('take and take back a guess of one’s own, and notice another one said meanwhile', async () => {
    const say = (hours: string, version: string) =>
      studio.post('/lessons/garment-types/skirt', { once: randomUUID(), version, hours });
    expect((await say('9', '0')).status).toBe(303);
    expect((await say('10', '0')).status).toBe(409);
    expect((await say('', '1')).status).toBe(303);
    expect((await lesson('skirt')).belief.from).toBe('starting-value');
  });

  it('come from a program too', async () => {
    const sent = { garments: [{ type: 'stays', hours: '60.5', plannedHours: 50, finishedOn: '2026-01-10' }] };
    const made = await studio.api('POST', '/api/lessons/import', sent);
    expect(made.status).toBe(201);
    const url = `/api/lessons/garments/${made.json().items[0].id}`;
    const put = await studio.api('PUT', url, { type: 'stays', hours: '61' }, { 'if-match': '"1"' });
    expect(put.json().hours).toBe('61');
    expect((await studio.api('PUT', url, { type: 'stays', hours: '62' }, { 'if-match': '"1"' })).status).toBe(
      412,
    );
    const wrong = await studio.api('POST', '/api/lessons/import', {
      garments: [{ type: 'stays', hours: '0', planned: 1 }],
    });
    expect(wrong.json().errors.map(({ pointer }: { pointer: string }) => pointer)).toContain(
      '/garments/0/planned',
    );
    const stranger = await studio.api('POST', '/api/lessons/import', {
      garments: [{ type: 'hat', hours: 1 }],
    });
    expect(stranger.json().errors[0].pointer).toBe('/garments/0/type');
    expect((await studio.api('DELETE', url)).status).toBe(200);
    const guessed = await studio.api('PUT', '/api/lessons/garment-types/stays', { ownGuess: '55' });
    expect(guessed.json().belief).toEqual({ hours: '55', from: 'ours' });
    expect((await studio.api('PUT', '/api/lessons/garment-types/stays', { ownGuess: null })).status).toBe(
      200,
    );
  });
});
