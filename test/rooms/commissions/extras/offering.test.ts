import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wordsOf } from '../../cloth-room/a-shelf.js';
import { aCommission } from '../../quotes/a-commission.js';
import { anOffering, type Offering, pocket } from './an-offering.js';

let at: Offering;
beforeAll(async () => {
  at = await anOffering();
});
afterAll(() => at.studio.close());

const query = (fields: Record<string, string>): string => `?${new URLSearchParams(fields).toString()}`;

describe('three taps', () => {
  it('ask why, in six plain sentences', async () => {
    const { text } = await at.studio.get(`${at.job}/extras/new`);
    for (const words of [
      'The client asked for it',
      'I want it so',
      'I have to do it again',
      'left out of the plan',
    ])
      expect(text).toContain(words);
    expect((await at.studio.get(at.job)).text).toContain(`${at.job}/extras/new`);
  });

  it('make no extra of an own error, or of what was forgotten', async () => {
    for (const cause of ['own error', 'forgotten in the plan']) {
      const { text } = await at.studio.get(`${at.job}/extras/new${query({ ...pocket, cause })}`);
      expect(text).toContain('It is not charged');
      expect(text).not.toContain('Offer it');
      const answer = await at.studio.post(`${at.job}/extras`, {
        once: randomUUID(),
        ...pocket,
        cause,
        wording: 'x',
        price: '1',
      });
      expect(answer.status).toBe(422);
    }
  });

  it('ask what, offering what the studio knows', async () => {
    const { text } = await at.studio.get(`${at.job}/extras/new${query({ cause: 'own choice' })}`);
    expect(text).toContain('What does it come to?');
    expect(text).toContain('pad stitch Jacket');
  });

  it('show hours, price and day before anybody agrees, and keep nothing', async () => {
    const { status, text } = await at.studio.get(`${at.job}/extras/new${query(pocket)}`);
    expect(status).toBe(200);
    for (const words of ['more', 'before tax', '20 March 2026 was named', 'a week holds 18 h 45'])
      expect(text).toContain(words);
    expect((await at.studio.api('GET', `/api${at.order.url}/extras`)).json().items).toEqual([]);
  });

  it('say beside the field what is missing', async () => {
    const none = await at.studio.get(`${at.job}/extras/new${query({ ...pocket, 'lines.0.minutes': '' })}`);
    expect(none.status).toBe(422);
    expect(none.text).toContain('How many minutes does it take');
    const cloth = await at.studio.get(
      `${at.job}/extras/new${query({ cause: 'client asked', material: 'silk' })}`,
    );
    expect(cloth.text).toContain('How much of it?');
    const post = await at.studio.post(`${at.job}/extras`, {
      once: randomUUID(),
      ...pocket,
      wording: '',
      price: '12,345.678',
    });
    expect(post.status).toBe(422);
    expect(post.text).toContain('Write what the client will read.');
    expect(post.text).toContain('12,345.678');
  });
});

describe('the sum behind an extra', () => {
  // By hand: 2,460 planned minutes, price = hours × 20, no profit: the extra's price is its share of minutes at the chosen
  // certainty × 20 / 60, and its hours and price are the garment’s with it less the garment’s without it.
  it('is the garment with it less the garment without it', async () => {
    const sent = {
      garmentId: at.order.garments[0],
      cause: 'client asked',
      operations: [{ line: 'secret pocket', minutes: 90 }],
    };
    const out = (await at.studio.api('POST', `/api${at.order.url}/extras/work-out`, sent)).json();
    const sumOf = async () => {
      const told = await at.studio.api('GET', `/api/garments/${at.order.garments[0]}/cost-sheet`);
      expect(told.status, told.text).toBe(200);
      return told.json();
    };
    const before = await sumOf();
    const added = { line: 'secret pocket', isNew: 'yes', minutes: '90', stage: 'make', mode: 'hand' };
    expect((await at.studio.post(`${at.job}/plan/add`, { once: randomUUID(), ...added })).status).toBe(303);
    const after = await sumOf();
    expect(out.workedOutPrice).toBe((Number(after.price.net) - Number(before.price.net)).toFixed(2));
    const { id } = (await at.planned()).find(({ name }) => name === 'secret pocket')!;
    await at.studio.post(`${at.job}/plan`, { once: randomUUID(), act: `out:${id}` });
  });

  it('is below nought where work is taken out, and the day stays', async () => {
    const [line] = await at.planned();
    const sent = { garmentId: at.order.garments[0], cause: 'client asked', out: [line!.id] };
    const out = (await at.studio.api('POST', `/api${at.order.url}/extras/work-out`, sent)).json();
    expect(Number(out.minutes)).toBeLessThan(-2000);
    expect(Number(out.price)).toBeLessThan(0);
    expect(out).toMatchObject({
      dueBefore: '2026-03-20',
      dueAfter: '2026-03-20',
      wording: 'Without As described',
    });
  });
});

describe('a clock that runs on a departure', () => {
  const clock = async () => (await at.studio.api('GET', '/api/bench/clock')).json().clock;
  const start = (what: string, cause: string) =>
    at.studio.api('POST', '/api/bench/clock', { garment: at.order.garments[0], what, mode: 'hand', cause });

  it('takes up the extra that is made of it, and no other', async () => {
    expect((await start('Ticket pocket', 'client asked')).status).toBe(201);
    await at.offer({ cause: 'body changed', wording: 'Let out at the waist' });
    expect((await clock()).extraId).toBeUndefined();
    const url = await at.offer({ wording: 'A ticket pocket', 'lines.0.line': 'ticket pocket' });
    const { id } = (await at.studio.api('GET', `/api${url}`)).json();
    expect((await clock()).extraId).toBe(id);
    const number = url.split('/').at(-1);
    expect(wordsOf((await at.studio.get('/bench')).text)).toContain(`It counts for extra ${number}`);
    await at.offer({ wording: 'Another' });
    expect((await clock()).extraId).toBe(id);
    expect((await at.studio.api('DELETE', '/api/bench/clock')).status).toBe(200);
  });
});

describe('bad input', () => {
  it('is answered in words: another commission, no such number, an answer to come', async () => {
    const other = await aCommission(at.studio, [{ name: 'Cape' }]);
    expect((await at.studio.get(`${other.url}/garments/${at.order.garments[0]}/extras/new`)).status).toBe(
      404,
    );
    expect((await at.studio.get(`${at.order.url}/extras/99`)).status).toBe(404);
    expect((await at.studio.get(`${at.order.url}/extras/1e9`)).status).toBe(404);
    const url = await at.offer({ wording: 'A date to come' });
    const late = await at.agree(url, { on: '2026-04-01', byWhom: '' });
    expect(late.status).toBe(422);
    expect(late.text).toContain('This day is still to come.');
    expect(late.text).toContain('Who agreed to it?');
  });

  it('from programs too', async () => {
    const sent = {
      garmentId: at.order.garments[0],
      cause: 'own error',
      operations: [{ line: 'again', minutes: 5 }],
    };
    const refused = await at.studio.api('POST', `/api${at.order.url}/extras`, sent);
    expect(refused.status).toBe(422);
    const nothing = await at.studio.api('POST', `/api${at.order.url}/extras`, {
      ...sent,
      cause: 'client asked',
      operations: [],
    });
    expect(nothing.json().errors[0].pointer).toBe('/operations');
  });
});
