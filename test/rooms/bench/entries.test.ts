import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { type BenchGarment, entriesOf, openGarments, wordsOf } from './a-bench.js';

const TODAY = '2026-03-02';
let studio: TestStudio;
let jacket: BenchGarment;
let waistcoat: BenchGarment;
beforeAll(async () => {
  studio = await openTestStudio();
  [jacket, waistcoat] = (await openGarments(studio, 'lounge-jacket', 'waistcoat')) as [
    BenchGarment,
    BenchGarment,
  ];
});
afterAll(() => studio.close());

const write = (text: string, values: Record<string, string> = {}) =>
  studio.post('/bench/time', { once: randomUUID(), line: text, ...values });
const newest = async (garment: BenchGarment, which = 0) => (await entriesOf(studio, garment.id))[which];
const dayOf = async (day: string) =>
  (await studio.api('GET', `/api/bench/entries?from=${day}&to=${day}`)).json().items as Record<string, any>[];

describe('an entry', () => {
  it('is taken back or written anew with a reason; both stay in sight', async () => {
    await write('2h lapels 2026-02-19');
    const [first] = await dayOf('2026-02-19');
    const url = `/bench/entries/${first?.id}`;
    expect((await studio.post(`${url}/reversal`, { once: randomUUID(), reason: '' })).text).toContain(
      'Give the reason',
    );
    const anew = {
      once: randomUUID(),
      minutes: '1:15',
      on: '2026-02-19',
      what: 'top collar',
      reason: 'Mixed up',
    };
    const answer = await studio.post(`${url}/anew`, anew);
    expect(answer.status).toBe(303);
    const kept = await dayOf('2026-02-19');
    expect(kept.map(({ minutes, kind, note }) => [minutes, kind, note])).toEqual([
      [120, 'pad-stitch-the-lapels', ''],
      [-120, 'pad-stitch-the-lapels', 'Mixed up'],
      [75, 'top-collar-drawn-on', 'Mixed up'],
    ]);
    const page = wordsOf((await studio.get(url)).text);
    expect(page).toContain('Taken back on 2 March 2026, 09:00: Mixed up');
    expect(page).not.toContain('Write it anew');
    expect((await studio.post(`${url}/anew`, { ...anew, once: randomUUID() })).status).toBe(409);
    const list = wordsOf((await studio.get(`/bench/garments/${jacket.id}/entries`)).text);
    expect(list).toContain('−2 h');
    const history = await studio.get(`/history?about=commission/${jacket.commissionId}/garment/${jacket.id}`);
    expect(history.text).toContain('Took back 2 h of “Pad-stitch the lapels (pair)” on the Lounge jacket');
    const last = kept[2]?.id;
    const same = {
      once: randomUUID(),
      minutes: '80 min',
      on: '2026-02-19',
      cause: 'own error',
      reason: 'Longer',
    };
    await studio.post(`/bench/entries/${last}/anew`, same);
    expect((await dayOf('2026-02-19')).at(-1)).toMatchObject({
      minutes: 80,
      kind: 'top-collar-drawn-on',
      cause: 'own error',
    });
  });
});

describe('for programs', () => {
  it('entries are added, found, taken back; bad ones name the field', async () => {
    const add = (body: object) => studio.api('POST', `/api/garments/${jacket.id}/bench-entries`, body);
    const stage = await add({
      stage: 'cut',
      begunAt: '2026-02-18T09:00:00Z',
      endedAt: '2026-02-18T10:30:00Z',
      on: '2026-02-18',
    });
    expect(stage.status, stage.text).toBe(201);
    expect(stage.json()).toMatchObject({ minutes: 90, stage: 'cut', begunAt: '2026-02-18T09:00:00.000Z' });
    const over = {
      away: 'post',
      begunAt: '2026-02-18T10:00:00Z',
      endedAt: '2026-02-18T11:00:00Z',
      on: '2026-02-18',
    };
    const asked = await studio.api('POST', '/api/bench/entries', over);
    expect([asked.status, asked.json().code]).toEqual([422, 'asked']);
    expect((await studio.api('POST', '/api/bench/entries', { ...over, evenIfOdd: true })).status).toBe(201);
    for (const [body, pointer] of [
      [{ stage: 'cut', minutes: 1500 }, '/minutes'],
      [{ stage: 'cut', minutes: 0 }, '/minutes'],
      [{ stage: 'cut' }, '/minutes'],
      [{ stage: 'cut', minutes: 5, on: '2026-03-03' }, '/on'],
      [{ stage: 'cut', minutes: 5, begunAt: '2026-02-18T09:00:00Z' }, '/endedAt'],
      [
        { stage: 'cut', minutes: 90, begunAt: '2026-02-17T09:00:00Z', endedAt: '2026-02-17T10:00:00Z' },
        '/minutes',
      ],
      [
        { stage: 'cut', minutes: 5, begunAt: '2026-02-17T10:00:00Z', endedAt: '2026-02-17T09:00:00Z' },
        '/endedAt',
      ],
      [{ minutes: 5 }, '/cause'],
      [{ stage: 'cut', minutes: 5, extra: randomUUID() }, '/extra'],
      [{ stage: 'cut', minutes: 5, length: 5 }, '/length'],
    ] as const) {
      const refused = await add(body);
      expect([refused.status, refused.json().errors?.[0]?.pointer]).toEqual([422, pointer]);
    }
    const { id } = stage.json();
    const back = await studio.api('POST', `/api/bench/entries/${id}/reversal`, {
      reason: 'It was an hour',
      instead: { minutes: 60, on: '2026-02-18' },
    });
    expect(back.json()).toMatchObject({
      reversal: { minutes: -90, of: id },
      instead: { minutes: 60, stage: 'cut' },
    });
    const again = await studio.api('POST', `/api/bench/entries/${id}/reversal`, { reason: 'Twice' });
    expect(again.json().code).toBe('reversed-already');
    const read = await studio.api('GET', `/api/bench/line?text=${encodeURIComponent('1h lapels')}`);
    expect(read.json()).toMatchObject({ kind: 'ok', value: { minutes: 60, garmentId: jacket.id } });
    expect((await studio.api('POST', '/api/bench/line', { line: '1h lapels' })).status).toBe(201);
    expect(
      (await studio.api('POST', '/api/bench/line', { line: '1h collar' })).json().errors[0].detail,
    ).toContain('Send “');
    const first = (await studio.api('GET', `/api/garments/${jacket.id}/bench-entries?limit=2`)).json();
    expect(first.items).toHaveLength(2);
    const rest = (
      await studio.api('GET', `/api/garments/${jacket.id}/bench-entries?after=${first.next}`)
    ).json();
    expect(rest.items[0].id < first.items[1].id).toBe(true);
  });

  it('a closed garment takes nothing and gives nothing back', async () => {
    await write('10 min press waistcoat');
    const entry = await newest(waistcoat);
    await studio.unit.write(studio.visit, async (writing) => {
      writing.says('Closed', 'house');
      const { id: garmentId, commissionId } = waistcoat;
      const words = { operationId: undefined, on: TODAY, words: '', document: '' };
      return garmentMarkBook.add(writing, { garmentId, commissionId, kind: 'closed', ...words });
    });
    const add = { stage: 'cut', minutes: 5 };
    expect((await studio.api('POST', `/api/garments/${waistcoat.id}/bench-entries`, add)).json().code).toBe(
      'garment-closed',
    );
    const back = await studio.api('POST', `/api/bench/entries/${entry?.id}/reversal`, { reason: 'No' });
    expect(back.json().code).toBe('garment-closed');
    expect((await write('10 min canvas waistcoat')).text).toContain('No garment that is being made');
  });
});

describe('the productive share', () => {
  it('as it was stands beside the rates, with the weeks it rests on', async () => {
    const share = (await studio.api('GET', '/api/bench/productive-share')).json();
    const days = (await studio.api('GET', '/api/bench/entries?from=2026-01-01&to=2026-03-02')).json().items;
    const sum = (found: any[]) => found.reduce((total, { minutes }) => total + minutes, 0);
    expect(share.inAll).toBe(sum(days));
    expect(share.inGarments).toBe(sum(days.filter(({ garmentId }: any) => garmentId)));
    expect(share.weeks).toBe(2);
    expect(wordsOf((await studio.get('/rates')).text)).toContain('It rests on 2 weeks.');
  });
});
