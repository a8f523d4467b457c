import { randomUUID } from 'node:crypto';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ReadSide } from '../../../src/storage/read-side.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aJacket } from '../commissions/an-opening.js';

/* Read back by ical.js, which shares no line with the writer. Rules: RFC 5545 (IETF, 2009). */

let studio: TestStudio;
let jacket: string;
let path: string;

const textOf = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
/** As a calendar asks: no cookie, no token. */
const ask = (url: string) => studio.app.inject({ url });
const events = async () => {
  const { payload } = await ask(path);
  return new ICAL.Component(ICAL.parse(payload)).getAllSubcomponents('vevent').map((each) => {
    const event = new ICAL.Event(each);
    return {
      uid: event.uid,
      summary: event.summary,
      start: event.startDate.toString(),
      end: event.endDate.toString(),
      sequence: event.sequence,
      status: each.getFirstPropertyValue('status')?.toString(),
    };
  });
};

beforeAll(async () => {
  studio = await openTestStudio();
  jacket = await aJacket(studio, { 'garments.0.name': 'Corvin’s bee coat', 'garments.0.due': '2026-05-01' });
});
afterAll(() => studio.close());

describe('the calendar', () => {
  it('has an address that is shown once, kept hashed, and opens without signing in', async () => {
    const once = randomUUID();
    const answer = await studio.post(
      '/house/calendar',
      { once, name: 'Telephone' },
      { host: 'quillmere.example' },
    );
    expect(answer.status, textOf(answer.text)).toBe(200);
    const [, address = ''] = /<code class="secret">([^<]+)<\/code>/.exec(answer.text) ?? [];
    path = new URL(address.replaceAll('&#x3D;', '=')).pathname;
    expect(path).toMatch(/^\/calendar\/[\w-]{43}\.ics$/);
    expect((await studio.post('/house/calendar', { once, name: 'Telephone' })).status).toBe(409);
    const feed = await ask(path);
    expect(feed.statusCode).toBe(200);
    expect(feed.headers).toMatchObject({
      'content-type': 'text/calendar; charset=utf-8',
      'x-content-type-options': 'nosniff',
      'cache-control': 'no-store',
    });
    const { manager } = studio.app.get(ReadSide);
    const secret = path.slice('/calendar/'.length, -'.ics'.length);
    const kept = JSON.stringify([
      await manager.query('SELECT * FROM calendar_key'),
      await manager.query('SELECT * FROM change'),
      await manager.query('SELECT * FROM once'),
    ]);
    expect(kept).not.toContain(secret);
    expect((await studio.get('/house/calendar')).text).not.toContain(secret);
  });

  it('names garments and codes, never whose they are', async () => {
    const commission = jacket.split('/garments/')[0]!;
    const made = await studio.api('POST', `/api${commission}/fittings`, {
      kind: 'baste',
      on: '2026-04-14',
      at: '14:30',
      minutes: 45,
      garmentIds: [jacket.split('/').at(-1)],
      notes: 'Ring at the bookbinder’s door',
    });
    const { id } = made.json();
    expect(await events()).toEqual([
      {
        uid: `fitting-${id}`,
        summary: 'Baste fitting: lounge jacket no. 1, C-0001',
        // Summer time in Dublin: one hour before UTC.
        start: '2026-04-14T13:30:00Z',
        end: '2026-04-14T14:15:00Z',
        sequence: 0,
        status: 'CONFIRMED',
      },
      {
        uid: `promise-${jacket.split('/').at(-1)}`,
        summary: 'Promised: lounge jacket no. 1, C-0001',
        start: '2026-05-01',
        end: '2026-05-02',
        sequence: 0,
        status: 'CONFIRMED',
      },
    ]);
    const { payload } = await ask(path);
    for (const word of ['Corvin', 'Haddlestone', 'bee coat', 'bookbinder'])
      expect(payload).not.toContain(word);

    const moved = { kind: 'baste', on: '2026-04-15', at: '14:30', garmentIds: made.json().garmentIds };
    await studio.api('PUT', `/api${commission}/fittings/${id}`, moved);
    expect((await events())[0]).toMatchObject({
      uid: `fitting-${id}`,
      start: '2026-04-15T13:30:00Z',
      sequence: 1,
    });
    await studio.api('PUT', `/api${commission}/fittings/${id}/not-held`, {
      state: 'put-off',
      reason: 'Snow',
    });
    expect((await events())[0]).toMatchObject({ uid: `fitting-${id}`, sequence: 2, status: 'CANCELLED' });
  });

  it('opens no more once its address is revoked, nor by any other', async () => {
    for (const file of ['x.ics', `${'A'.repeat(43)}.ics`, `${path.slice(10, -4)}`])
      expect((await ask(`/calendar/${file}`)).statusCode).toBe(404);
    const { items } = (await studio.api('GET', '/api/house/calendar/addresses')).json();
    expect(items).toMatchObject([{ name: 'Telephone', madeBy: 'Odalys Fenwright' }]);
    const gone = await studio.post(`/house/calendar/${items[0].id}/revoke`, { once: randomUUID() });
    expect(gone.status).toBe(303);
    expect((await ask(path)).statusCode).toBe(404);
    const act = new URL(String(gone.headers.location), 'http://x').searchParams.get('done')!;
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID() })).status).toBe(409);
    expect((await ask(path)).statusCode).toBe(404);
  });
});
