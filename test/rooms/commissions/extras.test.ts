import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { rateCard } from '../../../src/domain/rates/rate-card.js';
import { ratesBook } from '../../../src/storage/books/rates-book.js';
import { readPdf } from '../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { wordsOf } from '../cloth-room/a-shelf.js';
import { aCommission, bytesOf, furnishHouse } from '../quotes/a-commission.js';

let studio: TestStudio;
let order: { id: string; url: string; garments: string[] };
let job: string;

/** 40 weeks of 30 hours, 62.5 % of them in garments: 18 h 45 a productive week. 20 an hour, no overhead, no margin. */
const openForWork = async (): Promise<void> => {
  const year = { weeks: new Decimal(40), hoursAWeek: new Decimal(30), productiveShare: new Decimal('0.625') };
  const person = {
    name: 'Odalys Fenwright',
    pay: Money.zero('EUR'),
    onCosts: [],
    plainPerHour: Money.parse('20.00', 'EUR'),
    perHourByMode: {},
    year,
  };
  await studio.unit.write(studio.visit, async (writing) => {
    await ratesBook.setFrom(
      writing,
      rateCard('2026-01-01', { currency: 'EUR', people: [person], overhead: [] }),
    );
    writing.says('Set the rates', 'rates');
  });
};

beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
  await openForWork();
  order = await aCommission(studio, [
    { name: 'Jacket', minutes: 2400, dueOn: '2026-03-20' },
    { name: 'Waistcoat', minutes: 700 },
  ]);
  job = `${order.url}/garments/${order.garments[0]}`;
});
afterAll(() => studio.close());

const query = (fields: Record<string, string>): string => `?${new URLSearchParams(fields).toString()}`;
const pocket = { cause: 'client asked', 'lines.0.line': 'secret pocket', 'lines.0.minutes': '90' };

const offer = async (fields: Record<string, string> = {}, at = job): Promise<string> => {
  const answer = await studio.post(`${at}/extras`, {
    once: randomUUID(),
    ...pocket,
    wording: 'A secret pocket inside',
    price: '55',
    dueAfter: '2026-03-24',
    kind: 'charged',
    ...fields,
  });
  expect(answer.status, wordsOf(answer.text)).toBe(303);
  return String(answer.headers.location).split('?')[0]!;
};
const agree = (url: string, more: Record<string, string> = {}) =>
  studio.post(`${url}/answer`, {
    once: randomUUID(),
    act: 'agreed',
    byWhom: 'Corvin Haddlestone',
    how: 'in person',
    on: '2026-03-02',
    ...more,
  });
const planned = async (): Promise<{ id: string; name: string }[]> =>
  (await studio.api('GET', `/api/garments/${order.garments[0]}`)).json().plan;

describe('three taps', () => {
  it('ask why, in six plain sentences', async () => {
    const { text } = await studio.get(`${job}/extras/new`);
    for (const words of [
      'The client asked for it',
      'I want it so',
      'I have to do it again',
      'left out of the plan',
    ])
      expect(text).toContain(words);
    expect((await studio.get(job)).text).toContain(`${job}/extras/new`);
  });

  it('make no extra of an own error, or of what was forgotten', async () => {
    for (const cause of ['own error', 'forgotten in the plan']) {
      const { text } = await studio.get(`${job}/extras/new${query({ ...pocket, cause })}`);
      expect(text).toContain('It is not charged');
      expect(text).not.toContain('Offer it');
      const answer = await studio.post(`${job}/extras`, {
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
    const { text } = await studio.get(`${job}/extras/new${query({ cause: 'own choice' })}`);
    expect(text).toContain('What does it come to?');
    expect(text).toContain('pad stitch Jacket');
  });

  it('show hours, price and day before anybody agrees, and keep nothing', async () => {
    const { status, text } = await studio.get(`${job}/extras/new${query(pocket)}`);
    expect(status).toBe(200);
    for (const words of ['more', 'before tax', '20 March 2026 was named', 'a week holds 18 h 45'])
      expect(text).toContain(words);
    expect((await studio.api('GET', `/api${order.url}/extras`)).json().items).toEqual([]);
  });

  it('say beside the field what is missing', async () => {
    const none = await studio.get(`${job}/extras/new${query({ ...pocket, 'lines.0.minutes': '' })}`);
    expect(none.status).toBe(422);
    expect(none.text).toContain('How many minutes does it take');
    const cloth = await studio.get(`${job}/extras/new${query({ cause: 'client asked', material: 'silk' })}`);
    expect(cloth.text).toContain('How much of it?');
    const post = await studio.post(`${job}/extras`, {
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
      garmentId: order.garments[0],
      cause: 'client asked',
      operations: [{ line: 'secret pocket', minutes: 90 }],
    };
    const out = (await studio.api('POST', `/api${order.url}/extras/work-out`, sent)).json();
    const sumOf = async () => {
      const told = await studio.api('GET', `/api/garments/${order.garments[0]}/cost-sheet`);
      expect(told.status, told.text).toBe(200);
      return told.json();
    };
    const before = await sumOf();
    const added = { line: 'secret pocket', isNew: 'yes', minutes: '90', stage: 'make', mode: 'hand' };
    expect((await studio.post(`${job}/plan/add`, { once: randomUUID(), ...added })).status).toBe(303);
    const after = await sumOf();
    expect(out.workedOutPrice).toBe((Number(after.price.net) - Number(before.price.net)).toFixed(2));
    const { id } = (await planned()).find(({ name }) => name === 'secret pocket')!;
    await studio.post(`${job}/plan`, { once: randomUUID(), act: `out:${id}` });
  });

  it('is below nought where work is taken out, and the day stays', async () => {
    const [line] = await planned();
    const sent = { garmentId: order.garments[0], cause: 'client asked', out: [line!.id] };
    const out = (await studio.api('POST', `/api${order.url}/extras/work-out`, sent)).json();
    expect(Number(out.minutes)).toBeLessThan(-2000);
    expect(Number(out.price)).toBeLessThan(0);
    expect(out).toMatchObject({
      dueBefore: '2026-03-20',
      dueAfter: '2026-03-20',
      wording: 'Without As described',
    });
  });
});

describe('the client’s card', () => {
  it('shows words, price and day, and nothing private in its source', async () => {
    const url = await offer();
    const { text } = await studio.get(`${url}/card`);
    for (const words of [
      'A secret pocket inside',
      '€67.65, tax included',
      '24 March 2026 in place of 20 March 2026',
    ])
      expect(text).toContain(words);
    for (const word of [
      'hour',
      'minute',
      'cost',
      'margin',
      'profit',
      'asked',
      'cause',
      'Waistcoat',
      'Lessons',
      'Rates',
      'certainty',
    ])
      expect(text.toLowerCase()).not.toContain(word.toLowerCase());
  });

  it('is agreed on by name, once, and shown again as agreed', async () => {
    const url = await offer({ wording: 'Horn buttons' });
    const nobody = await studio.post(`${url}/card`, { once: randomUUID(), byWhom: '', how: 'in person' });
    expect(nobody.status).toBe(422);
    expect(nobody.text).toContain('Please write your name');
    const yes = { once: randomUUID(), byWhom: 'Corvin Haddlestone', how: 'in person' };
    expect((await studio.post(`${url}/card`, yes)).status).toBe(303);
    expect((await studio.get(`${url}/card`)).text).toContain('Agreed by Corvin Haddlestone on 2 March 2026.');
    expect((await studio.post(`${url}/card`, { ...yes, once: randomUUID() })).status).toBe(409);
  });

  it('comes as a PDF of one A6 page', async () => {
    const url = await offer({ wording: 'Silk facings <b>bold</b>' });
    const pdf = await readPdf(await bytesOf(studio, `${url}/card.pdf`));
    expect(pdf.pages).toHaveLength(1);
    expect(pdf.pages[0]).toContain('Silk facings <b>bold</b>');
    expect(pdf.pages[0]).toContain('€67.65');
    expect(pdf.pages[0]).not.toMatch(/minute|cost|margin/i);
  });
});

describe('an agreed extra', () => {
  it('goes into the plan under its own key, with its cloth, and moves the day', async () => {
    const url = await offer({
      wording: 'Cuffs that open',
      'lines.0.line': 'working cuffs',
      material: 'sleeve lining',
      quantity: '0.4 m @ 9',
      dueAfter: '2026-03-27',
    });
    expect((await planned()).map(({ name }) => name)).not.toContain('working cuffs');
    expect((await agree(url)).status).toBe(303);
    const garment = (await studio.api('GET', `/api/garments/${order.garments[0]}`)).json();
    expect(garment.plan.map(({ name }: { name: string }) => name)).toContain('working cuffs');
    expect(garment.materials.map(({ name }: { name: string }) => name)).toContain('sleeve lining');
    expect(garment.dueOn).toBe('2026-03-27');
    const number = Number(url.split('/').at(-1));
    const { agreed, quoted } = (
      await studio.api('GET', `/api/garments/${order.garments[0]}/agreed-plan`)
    ).json();
    const names = (of: { plan: { name: string }[] }): string[] => of.plan.map(({ name }) => name);
    expect(names(agreed)).toContain('working cuffs');
    expect(names(quoted)).not.toContain('working cuffs');
    const extra = (await studio.api('GET', `/api${order.url}/extras/${number}`)).json();
    expect(extra.work.operations[0].line.id).toBe(
      garment.plan.find(({ name }: { name: string }) => name === 'working cuffs').id,
    );
  });

  it('never changes: it cannot be answered again, or undone', async () => {
    const url = await offer({ wording: 'A ticket pocket' });
    const agreed = await agree(url);
    expect((await studio.get(String(agreed.headers.location))).text).not.toContain('>Undo<');
    expect((await agree(url, { act: 'declined' })).status).toBe(409);
    expect((await studio.get(url)).text).toContain('Offer to take it back');
  });

  it('is taken back by another, which takes its work out of the plan', async () => {
    const url = await offer({ wording: 'Piped seams', 'lines.0.line': 'piped seams' });
    await agree(url);
    const back = await studio.post(`${url}/take-back`, { once: randomUUID(), wording: 'Without piping' });
    expect(back.status).toBe(303);
    const second = String(back.headers.location).split('?')[0]!;
    const pair = (await studio.api('GET', `/api${second}`)).json();
    expect(pair).toMatchObject({ price: '-55.00', state: 'offered' });
    expect((await planned()).map(({ name }) => name)).toContain('piped seams');
    await agree(second);
    expect((await planned()).map(({ name }) => name)).not.toContain('piped seams');
    expect((await studio.api('GET', `/api${url}`)).json()).toMatchObject({ stands: false });
    expect((await studio.post(`${url}/take-back`, { once: randomUUID(), wording: 'Again' })).status).toBe(
      409,
    );
  });

  it('is given at no price, or declined and given all the same', async () => {
    const given = await offer({ cause: 'own choice', wording: 'A heavier chest piece', kind: 'compliments' });
    expect((await studio.api('GET', `/api${given}`)).json()).toMatchObject({
      price: '0.00',
      kind: 'compliments',
      state: 'agreed',
    });
    expect((await studio.get(`${given}/card`)).text).toContain('With our compliments');
    const offered = await offer({ cause: 'own choice', wording: 'A pick stitched edge' });
    await agree(offered, { act: 'declined', byWhom: '', how: '' });
    expect((await studio.get(offered)).text).toContain('Give it all the same');
    expect((await agree(offered, { act: 'given', byWhom: '', how: '' })).status).toBe(303);
    expect((await studio.get(`${order.url}/extras`)).text).toContain(
      'given with our compliments on 2 March 2026',
    );
    expect((await studio.get(order.url)).text).toContain('A pick stitched edge');
  });

  it('pressed twice is one extra, and numbers are given in one row', async () => {
    const fields = { once: randomUUID(), ...pocket, wording: 'Once only', price: '5', kind: 'charged' };
    const [one, two] = [
      await studio.post(`${job}/extras`, fields),
      await studio.post(`${job}/extras`, fields),
    ];
    expect(two.headers.location).toBe(one.headers.location);
    const { items } = (await studio.api('GET', `/api${order.url}/extras`)).json();
    expect(items.map(({ number }: { number: number }) => number)).toEqual(
      items.map((_: unknown, place: number) => place + 1),
    );
    expect(items.filter(({ wording }: { wording: string }) => wording === 'Once only')).toHaveLength(1);
  });
});

describe('bad input', () => {
  it('is answered in words: another commission, no such number, an answer to come', async () => {
    const other = await aCommission(studio, [{ name: 'Cape' }]);
    expect((await studio.get(`${other.url}/garments/${order.garments[0]}/extras/new`)).status).toBe(404);
    expect((await studio.get(`${order.url}/extras/99`)).status).toBe(404);
    expect((await studio.get(`${order.url}/extras/1e9`)).status).toBe(404);
    const url = await offer({ wording: 'A date to come' });
    const late = await agree(url, { on: '2026-04-01', byWhom: '' });
    expect(late.status).toBe(422);
    expect(late.text).toContain('This day is still to come.');
    expect(late.text).toContain('Who agreed to it?');
  });

  it('from programs too', async () => {
    const sent = {
      garmentId: order.garments[0],
      cause: 'own error',
      operations: [{ line: 'again', minutes: 5 }],
    };
    const refused = await studio.api('POST', `/api${order.url}/extras`, sent);
    expect(refused.status).toBe(422);
    const nothing = await studio.api('POST', `/api${order.url}/extras`, {
      ...sent,
      cause: 'client asked',
      operations: [],
    });
    expect(nothing.json().errors[0].pointer).toBe('/operations');
  });
});
