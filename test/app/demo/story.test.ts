import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { garmentSum } from '../../../src/domain/commissions/garment-sum.js';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { sumInJson } from '../../../src/rooms/commissions/sum/sum.api.js';
import { pricingOf } from '../../../src/rooms/commissions/sum/sum-of.js';
import { garmentBook } from '../../../src/storage/books/garment-book.js';
import { studioBook } from '../../../src/storage/books/studio-book.js';
import { Clock } from '../../../src/storage/clock.js';
import { ReadSide } from '../../../src/storage/read-side.js';

import { BEARER, type ToldStory, tellStory } from './told-story.js';

/* The whole demonstration, loaded once as `npm run demo` loads it: its figures tie out, and nothing on its first page leads nowhere. */

let story: ToldStory;
let before: any;

const api = async (url: string): Promise<any> => {
  const answer = await story.app.inject({ method: 'GET', url, headers: BEARER });
  expect([url, answer.statusCode]).toEqual([url, 200]);
  return answer.json();
};
const sumOfJacket = () => api(`/api/garments/${id('asked: Jacket')}/cost-sheet`);
const page = (url: string) => story.app.inject({ method: 'GET', url, headers: { cookie: story.cookie } });
const id = (name: string): string =>
  story.names.get(name) ?? expect.fail(`The story keeps nothing as ${name}.`);
const sum = (amounts: readonly (string | number)[]): string =>
  amounts.reduce<Decimal>((so, one) => so.plus(one), new Decimal(0)).toFixed(2);

beforeAll(async () => {
  story = await tellStory(async (so) => {
    story = { ...so, cookie: '', close: () => so.app.close() };
    const opened = await so.app.inject({
      method: 'POST',
      url: '/api/commissions',
      headers: BEARER,
      payload: {
        clientId: so.names.get('corvin'),
        title: 'A jacket to ask about',
        garments: [{ typeId: 'lounge-jacket', name: 'Jacket to ask about', make: 'hand-where-it-shows' }],
      },
    });
    so.names.set('asked', opened.json().id);
    so.names.set('asked: Jacket', opened.json().garments[0].id);
    before = await sumOfJacket();
  });
}, 240_000);

afterAll(() => story?.close());

describe('The cloth room', () => {
  it('stands in the book at what its lots are worth, and each lot at what came in less what went out', async () => {
    const { items } = await api('/api/lots');
    const worth = sum(items.map(({ value }: { value: string }) => value));
    expect(new Decimal(worth).gt(0)).toBe(true);
    expect((await page('/cloth-room')).payload).toContain(worth);
    const materials = (await api('/api/materials?limit=100')).items;
    const moved: string[] = [];
    for (const one of materials)
      for (const entry of (await api(`/api/materials/${one.id}/movements`)).items)
        for (const part of entry.parts) moved.push(part.cost);
    expect(sum(moved)).toBe(worth);
  });

  it('holds a client’s own cloth that is a quarter of a metre too short, at no value of ours', async () => {
    const lot = await api(`/api/lots/${id('inherited cloth')}`);
    const { materials } = await api(`/api/garments/${id('greatcoats: Greatcoat')}`);
    const planned = materials.find(({ name }: { name: string }) => name.startsWith('Client’s own'));
    expect(new Decimal(planned.quantity).minus(lot.left).toFixed()).toBe('0.25');
    expect([lot.origin, lot.value]).toEqual(['custody', '0.00']);
  });
});

describe('What clients owe', () => {
  const papersOf = async (commission: string) =>
    (await api(`/api/commissions/${id(commission)}/invoices`)).items;

  it('is what was issued less what was paid, for each client', async () => {
    const all = { corvin: ['three-piece'], lantern: ['capes'], saffron: ['gown'] };
    for (const [client, commissions] of Object.entries(all)) {
      const papers = (await Promise.all(commissions.map(papersOf))).flat();
      const payments = (await api(`/api/payments?clientId=${id(client)}&limit=100`)).items;
      const balance = sum([
        ...papers.map(({ total }) => total),
        ...payments.map(({ kind, amount }: any) => (kind === 'refund' ? amount : `-${amount}`)),
      ]);
      expect([client, (await api(`/api/clients/${id(client)}/account`)).balance]).toEqual([client, balance]);
    }
    const owed = await api('/api/papers/owed');
    expect(owed.owed).toBe((await api(`/api/clients/${id('corvin')}/account`)).owed);
  });

  it('stands beside the deposits that no garment has taken up yet, and money on account', async () => {
    const [deposit] = (await papersOf('three-piece')).filter(({ kind }: any) => kind === 'deposit-invoice');
    const [capes] = await papersOf('capes');
    const [part] = (await papersOf('three-piece')).filter(({ kind }: any) => kind === 'part-invoice');
    const { held } = await api('/api/papers/owed');
    const { price } = await api(`/api/garments/${id('tweeds: Jacket')}/reckoning`);
    // The jacket with tax, less what its part invoice still asked for, is the deposit it has taken up.
    const takenUp = new Decimal(price).times('1.21').minus(part.total);
    const onAccount = new Decimal(400).minus(120);
    expect(takenUp.gt(0)).toBe(true);
    expect(sum([held.deposits, held.credit])).toBe(
      sum([deposit.total, `-${takenUp.toFixed(2)}`, capes.total, onAccount.toFixed()]),
    );
  });
});

describe('The bench', () => {
  const entriesOf = async (garment: string): Promise<number> => {
    const { items, next } = await api(`/api/garments/${garment}/bench-entries?limit=500`);
    expect(next).toBeUndefined();
    return items.reduce((so: number, { minutes }: { minutes: number }) => so + minutes, 0);
  };

  it('gives every landing, and every reckoning, the minutes of its entries', async () => {
    let worked = 0;
    for (const commission of (await api('/api/commissions?limit=100')).items)
      for (const { id: garment } of (await api(`/api/commissions/${commission.id}/garments`)).items) {
        const minutes = await entriesOf(garment);
        const { soFar } = await api(`/api/garments/${garment}/forecast`);
        expect([garment, soFar.minutes]).toEqual([garment, String(minutes)]);
        worked += minutes > 0 ? 1 : 0;
      }
    expect(worked).toBe(14);
    expect(await entriesOf(id('tweeds: Waistcoat'))).toBeGreaterThan(600);
    expect(await entriesOf(id('tweeds: Breeches'))).toBe(0);
  });

  it('closed six garments, whose bridges lead from the quoted profit to the actual one', async () => {
    const closed = [...story.names].filter(([name]) =>
      /^(moleskin|flannels|walking|linen|river): |^tweeds: J/.test(name),
    );
    expect(closed).toHaveLength(6);
    for (const [, garment] of closed) {
      const told = await api(`/api/garments/${garment}/reckoning`);
      expect(told.closed).toBe(true);
      expect(told.cost.minutes).toBe(String(await entriesOf(garment)));
      const steps = told.bridge.map(({ amount }: { amount: string }) => amount);
      expect(sum([told.quotedProfit, ...steps])).toBe(told.actualProfit);
    }
    expect((await api(`/api/garments/${id('gowns: Evening gown')}/marks`)).standing).toBe('cancelled');
  });
});

describe('A jacket quoted from starting values, before the story and after it', () => {
  it('comes to other figures each time, and its page says how each line comes to its hours', async () => {
    const [reading, clock] = [story.app.get(ReadSide), story.app.get(Clock)];
    const planned = await garmentBook.planned(reading, id('asked: Jacket'));
    const basis = (await (await pricingOf(reading, clock, id('asked'))).basisOf(planned))!;
    const { overruns } = await studioBook.the(reading);
    const nothing = { lesson: fitLesson([], { overruns }), notebook: [], mendingShare: new Decimal(0) };
    const starting = sumInJson(garmentSum({ planned, ...basis, ...nothing })) as typeof before;
    const after = await sumOfJacket();
    expect([starting, before, after].map(({ hours }) => [hours.rests.on, hours.rests.garments])).toEqual([
      ['starting', 0],
      ['notebook', 13],
      ['notebook', 13],
    ]);
    expect(after.plannedMinutes).toBe(before.plannedMinutes);
    for (const { hours } of [starting, before, after]) {
      const [even, fourInFive, nineInTen] = ['0.5', '0.8', '0.9'].map((q) => Number(hours.total[q]));
      expect(even).toBeLessThan(fourInFive!);
      expect(fourInFive).toBeLessThan(nineInTen!);
    }
    // The notebook narrows it; the closed garments move it again.
    const spread = ({ hours }: typeof before) => hours.total['0.9'] / hours.total['0.5'];
    expect(spread(before)).toBeLessThan(spread(starting));
    expect(Number(after.price.net)).toBeGreaterThan(Number(before.price.net));
    expect(after.hours.total).not.toEqual(before.hours.total);
    const { payload } = await page(`/commissions/${id('asked')}/garments/${id('asked: Jacket')}`);
    expect(payload).toContain('Each planned time, as a multiplication');
    expect(payload).toMatch(/planned [^<]+ × your usual [\d.]+/);
  });
});

it('Every link of the first page leads somewhere, and the fitting of tomorrow stands there', async () => {
  const first = await page('/');
  expect(first.payload).toContain('Fittings tomorrow');
  expect(first.payload).toMatch(/15:00[\s\S]*Forward fitting[\s\S]*Waistcoat/);
  const links = new Set([...first.payload.matchAll(/href="(\/[^"#]*)"/g)].map(([, link]) => link!));
  expect(links.size).toBeGreaterThan(20);
  for (const link of links)
    expect([link, (await page(link.replaceAll('&amp;', '&'))).statusCode]).toEqual([link, 200]);
});
