import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { Money } from '../../../../src/domain/kernel/money.js';
import { rateCard } from '../../../../src/domain/rates/rate-card.js';
import { ratesBook } from '../../../../src/storage/books/rates-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { wordsOf } from '../../cloth-room/a-shelf.js';
import { aCommission, furnishHouse } from '../../quotes/a-commission.js';

type Answer = Awaited<ReturnType<TestStudio['post']>>;

/** A jacket and a waistcoat in a studio that knows what an hour costs, and the presses of an extra. */
export type Offering = {
  studio: TestStudio;
  order: { id: string; url: string; garments: string[] };
  /** The job sheet of the jacket. */
  job: string;
  offer: (fields?: Record<string, string>) => Promise<string>;
  agree: (url: string, more?: Record<string, string>) => Promise<Answer>;
  planned: () => Promise<{ id: string; name: string }[]>;
};

export const pocket = { cause: 'client asked', 'lines.0.line': 'secret pocket', 'lines.0.minutes': '90' };

/** 40 weeks of 30 hours, 62.5 % of them in garments: 18 h 45 a productive week. 20 an hour, no overhead, no margin. */
const openForWork = async (studio: TestStudio): Promise<void> => {
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

export const anOffering = async (): Promise<Offering> => {
  const studio = await openTestStudio();
  await furnishHouse(studio);
  await openForWork(studio);
  const order = await aCommission(studio, [
    { name: 'Jacket', minutes: 2400, dueOn: '2026-03-20' },
    { name: 'Waistcoat', minutes: 700 },
  ]);
  const job = `${order.url}/garments/${order.garments[0]}`;
  return {
    studio,
    order,
    job,
    offer: async (fields = {}) => {
      const answer = await studio.post(`${job}/extras`, {
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
    },
    agree: (url, more = {}) =>
      studio.post(`${url}/answer`, {
        once: randomUUID(),
        act: 'agreed',
        byWhom: 'Corvin Haddlestone',
        how: 'in person',
        on: '2026-03-02',
        ...more,
      }),
    planned: async () => (await studio.api('GET', `/api/garments/${order.garments[0]}`)).json().plan,
  };
};
