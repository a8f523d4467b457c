import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission } from './an-opening.js';

let studio: TestStudio;
let commission: string;
let jacket: string;
let waistcoat: string;

const idOf = (url: string): string => url.split('/').at(-1)!.split('?')[0]!;
const textOf = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
const placeOf = (answer: { headers: Record<string, unknown> }): string =>
  String(answer.headers.location).split('?')[0]!;

beforeAll(async () => {
  studio = await openTestStudio();
  commission = await openCommission(studio, {
    'garments.1.type': 'waistcoat',
    'garments.1.make': 'all-hand',
  });
  [jacket, waistcoat] = (await garmentsOf(studio, commission)).map(idOf) as [string, string];
});
afterAll(() => studio.close());

const plan = (fields: Record<string, string> = {}) =>
  studio.post(`${commission}/fittings`, {
    once: randomUUID(),
    kind: 'baste',
    on: '2026-03-02',
    at: '8.30',
    minutes: '45',
    [`garment.${jacket}`]: 'yes',
    [`garment.${waistcoat}`]: 'yes',
    ...fields,
  });

describe('a fitting', () => {
  let fitting: string;

  it('is planned once for two garments, however often the button is pressed', async () => {
    const once = randomUUID();
    const first = await plan({ once });
    expect(first.status, textOf(first.text)).toBe(303);
    expect((await plan({ once })).headers.location).toBe(first.headers.location);
    fitting = placeOf(first);
    const { items } = (await studio.api('GET', `/api${commission}/fittings`)).json();
    expect(items).toMatchObject([
      {
        kind: 'baste',
        on: '2026-03-02',
        at: '08:30',
        minutes: 45,
        state: 'planned',
        garmentIds: [jacket, waistcoat],
      },
    ]);
    expect(textOf((await studio.get(fitting)).text)).toContain(
      'Monday 2 March 2026 at 08:30, 45 min: planned.',
    );
  });

  it('at the time of another is asked about, not refused', async () => {
    const asked = await plan({ at: '9:00' });
    expect(asked.status).toBe(422);
    expect(textOf(asked.text)).toContain('Another baste fitting is at 08:30 that day. Both at once?');
    const meant = await plan({ at: '9:00', 'confirm.at': 'yes' });
    expect(meant.status).toBe(303);
    await studio.post(`${placeOf(meant)}/not-held`, {
      once: randomUUID(),
      state: 'put-off',
      reason: 'One was enough',
    });
  });

  it('says what is missing and keeps what was typed', async () => {
    const answer = await studio.post(`${commission}/fittings`, {
      once: randomUUID(),
      kind: 'toile',
      on: '',
      at: 'teatime',
      minutes: '45',
      notes: '<script>alert(1)</script>',
    });
    expect(answer.status).toBe(422);
    expect(textOf(answer.text)).toContain('is not a time on the clock');
    expect(answer.text).toContain('&lt;script&gt;');
    expect(answer.text).not.toContain('<script>alert');
  });

  it('is held: corrections row by row, the next date planned in the same act, and undone whole', async () => {
    const form = await studio.get(`${fitting}/hold`);
    expect(form.text).toContain('name="corrections.5.amount"');
    const held = {
      once: randomUUID(),
      version: '1',
      on: '2026-03-02',
      present: 'Odalys Fenwright',
      worn: 'Brown shoes, thick shirt',
      'corrections.0.garmentId': jacket,
      'corrections.0.place': 'left shoulder',
      'corrections.0.direction': 'raise',
      'corrections.0.amount': '6 mm',
      'corrections.3.garmentId': waistcoat,
      'corrections.3.place': 'side seam',
      'corrections.3.direction': 'let-out',
      'corrections.3.amount': 'half a hand',
      nextOn: '2026-03-16',
      nextAt: '8:30',
      nextKind: 'forward',
    };
    const refused = await studio.post(`${fitting}/hold`, held);
    expect(refused.status).toBe(422);
    expect(refused.text).toContain(
      'name="corrections.1.amount" type="text" class="figure" inputmode="decimal" value="half a hand"',
    );
    const kept = await studio.post(`${fitting}/hold`, { ...held, 'corrections.3.amount': '1.5 cm' });
    expect(kept.status, textOf(kept.text)).toBe(303);
    const one = (await studio.api('GET', `/api${fitting}`)).json();
    expect(one).toMatchObject({
      state: 'held',
      worn: 'Brown shoes, thick shirt',
      corrections: [
        { garmentId: jacket, place: 'left shoulder', direction: 'raise', amount: '6 mm', mm: '6' },
        { garmentId: waistcoat, direction: 'let-out', amount: '1.5 cm', mm: '15' },
      ],
    });
    const next = (await studio.api('GET', `/api${commission}/fittings/${one.nextId}`)).json();
    expect(next).toMatchObject({
      kind: 'forward',
      on: '2026-03-16',
      state: 'planned',
      garmentIds: [jacket, waistcoat],
    });
    expect(textOf((await studio.get(fitting)).text)).toContain('left shoulder Lounge jacket raise 6 mm');

    const act = new URL(String(kept.headers.location), 'http://x').searchParams.get('done')!;
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID() })).status).toBe(303);
    const before = (await studio.api('GET', `/api${fitting}`)).json();
    expect(before).toMatchObject({ state: 'planned', corrections: [] });
    expect((await studio.api('GET', `/api${commission}/fittings/${one.nextId}`)).status).toBe(404);
  });

  it('held by two people shows both versions', async () => {
    const late = await studio.post(`${fitting}/hold`, {
      once: randomUUID(),
      version: '1',
      on: '2026-03-02',
      worn: 'Boots',
    });
    expect(late.status).toBe(409);
    expect(late.text).toContain('Boots');
  });

  it('is missed with a reason and planned anew; then it can be held no more', async () => {
    const body = {
      state: 'missed',
      reason: 'The bridge was shut.',
      nextOn: '2026-03-09',
      nextAt: '10:00',
      nextKind: 'baste',
    };
    const answer = await studio.api('PUT', `/api${fitting}/not-held`, body);
    expect(answer.status, answer.text).toBe(200);
    expect(answer.json()).toMatchObject({ state: 'missed', reason: 'The bridge was shut.' });
    expect((await studio.api('PUT', `/api${fitting}/held`, { on: '2026-03-02' })).status).toBe(409);
    expect(textOf((await studio.get(`${commission}/fittings`)).text)).toContain(
      'missed The bridge was shut.',
    );
    for (const page of [commission, `${commission}/garments/${jacket}`])
      expect(textOf((await studio.get(page)).text)).toMatch(/Baste fitting 2 March 2026, 08:30 .*missed/);
  });

  it('holds only garments of its commission that are open', async () => {
    const other = await openCommission(studio, { client: 'Isaura Pellgrove' });
    const [strange] = (await garmentsOf(studio, other)).map(idOf) as [string];
    const said = { kind: 'toile', on: '2026-03-20', at: '10:00', garmentIds: [strange] };
    const refused = await studio.api('POST', `/api${commission}/fittings`, said);
    expect(refused.status).toBe(422);
    expect(refused.text).toContain('not in this commission');
    await studio.unit.write(studio.visit, async (writing) => {
      await garmentMarkBook.add(writing, {
        garmentId: strange,
        commissionId: idOf(other),
        kind: 'cancelled',
        operationId: undefined,
        on: '2026-03-02',
        words: '',
        document: '',
      });
      writing.says('Cancelled', 'house');
    });
    const cancelled = await studio.api('POST', `/api${other}/fittings`, said);
    expect(cancelled.status).toBe(409);
    expect(cancelled.text).toContain('was cancelled');
    expect((await studio.api('GET', `/api${other}/fittings`)).json().items).toEqual([]);
  });

  it('of a child names the guardian who stood by', async () => {
    const child = await openCommission(studio, { client: 'Tibb Haddlestone' });
    const [cape] = (await garmentsOf(studio, child)).map(idOf) as [string];
    const { clientId } = (await studio.api('GET', `/api${child}`)).json();
    const client = (await studio.api('GET', `/api/clients/${clientId}`)).json();
    const { id: _, version: __, code: ___, ...words } = client;
    const corrected = await studio.api('PUT', `/api/clients/${clientId}`, {
      ...words,
      isChild: true,
      guardian: 'Corvin Haddlestone',
    });
    expect(corrected.status, corrected.text).toBe(200);
    const made = await studio.api('POST', `/api${child}/fittings`, {
      kind: 'baste',
      on: '2026-03-02',
      at: '16:00',
      garmentIds: [cape],
    });
    const url = String(made.headers.location);
    const alone = await studio.api('PUT', `${url}/held`, { on: '2026-03-02' });
    expect(alone.status).toBe(422);
    expect(alone.text).toContain('guardian');
    expect((await studio.get(`${url.replace('/api', '')}/hold`)).text).toContain(
      'value="Corvin Haddlestone"',
    );
    const named = await studio.api('PUT', `${url}/held`, {
      on: '2026-03-02',
      guardian: 'Corvin Haddlestone',
    });
    expect(named.status, named.text).toBe(200);
  });
});
