import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { rateCard } from '../../../src/domain/rates/rate-card.js';
import { benchBook } from '../../../src/storage/books/bench/bench-book.js';
import { clockBook } from '../../../src/storage/books/bench/clock-book.js';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { openGarments } from '../../../src/storage/books/bench/open-garments.js';
import { personBook } from '../../../src/storage/books/bench/person-book.js';
import { ratesBook } from '../../../src/storage/books/rates-book.js';
import { hoursLeft } from '../../../src/storage/landing/hours-left.js';
import { OWNER, openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('the day sheet', () => {
  it('explains itself while it is empty, and offers the one next step', async () => {
    const empty = await studio.get('/');
    expect(empty.status).toBe(200);
    expect(empty.text).toContain('Add the first client');
    await studio.post('/clients', { once: randomUUID(), name: 'Corvin Haddlestone' });
    expect((await studio.get('/')).text).toContain('Open the first commission');
  });

  it('lists garments in the order they should leave, with the days that are left', async () => {
    const client = (await studio.api('GET', '/api/clients?q=corvin')).json().items[0];
    const made = await studio.api('POST', '/api/commissions', {
      clientId: client.id,
      garments: [
        { typeId: 'waistcoat', dueOn: '2026-05-01' },
        { typeId: 'lounge-jacket', dueOn: '2026-03-12' },
      ],
    });
    expect(made.status).toBe(201);
    const { text } = await studio.get('/');
    expect(text.indexOf('in 10 days')).toBeGreaterThan(0);
    expect(text.indexOf('12 March 2026')).toBeLessThan(text.indexOf('1 May 2026'));
  });

  it('says which will be comfortable, tight or late, and why, once weekly hours are known', async () => {
    expect((await studio.get('/')).text).toContain('say in Rates how many hours a week you work');
    const year = { weeks: new Decimal(46), hoursAWeek: new Decimal(40), productiveShare: new Decimal(1) };
    const money = Money.zero('EUR');
    const person = {
      name: OWNER.name,
      pay: money,
      onCosts: [],
      perHourByMode: {},
      plainPerHour: money,
      year,
    };
    await studio.unit.write(studio.visit, async (writing) => {
      const workings = { currency: 'EUR', people: [person], overhead: [] };
      await ratesBook.setFrom(writing, rateCard('2026-01-01', workings));
      writing.says('Said the hours of a week', 'rates');
    });
    const { text } = await studio.get('/');
    // A jacket of starting values takes far more than the ten days to 12 March hold at 40 hours a week.
    const jacket = text.slice(text.indexOf('12 March 2026'), text.indexOf('1 May 2026'));
    expect(jacket).toContain('Late');
    expect(jacket).toContain('57 h there until then');
    const waistcoat = text.slice(text.indexOf('1 May 2026'));
    expect(waistcoat).toContain('Comfortable');
    expect(waistcoat).toMatch(/\d+ h with what leaves before it/);
  });

  it('leaves out what was handed over, and brings it back when that is taken back', async () => {
    const [jacket] = await openGarments(studio.read);
    const mark = await studio.unit.write(studio.visit, async (writing) => {
      writing.says('Handed over', `commission/${jacket!.commissionId}`);
      return garmentMarkBook.add(writing, {
        garmentId: jacket!.id,
        commissionId: jacket!.commissionId,
        kind: 'delivered',
        operationId: undefined,
        on: '2026-03-02',
        words: '',
        document: '',
      });
    });
    expect((await studio.get('/')).text).not.toContain('12 March 2026');
    await studio.unit.write(studio.visit, async (writing) => {
      writing.says('Took a hand-over back', `commission/${jacket!.commissionId}`);
      return garmentMarkBook.takeBack(writing, mark.value.id, 'Not yet');
    });
    expect((await studio.get('/')).text).toContain('12 March 2026');
  });

  it('shows the clock that runs, and minutes written for a garment make less of it left', async () => {
    const [garment] = await openGarments(studio.read);
    const before = (await hoursLeft(studio.read, [garment!.id])).get(garment!.id)!;
    const plan = (await studio.api('GET', `/api/garments/${garment!.id}`)).json().plan;
    const line = plan.find((one: { fixedMinutes: string }) => Number(one.fixedMinutes) > 30);
    await studio.unit.write(studio.visit, async (writing) => {
      const person = await personBook.mine(writing);
      const worked = {
        commissionId: garment!.commissionId,
        garmentId: garment!.id,
        garmentName: garment!.name,
      };
      const on = {
        operationId: line.id,
        kind: line.kind,
        name: line.name,
        stage: undefined,
        mode: undefined,
      };
      const plain = {
        away: undefined,
        cause: undefined,
        extraId: undefined,
        begunAt: undefined,
        endedAt: undefined,
      };
      const who = { personId: person.id, personName: person.name };
      await benchBook.add(writing, {
        ...worked,
        ...on,
        ...plain,
        ...who,
        minutes: 20,
        on: '2026-03-02',
        way: 'line',
        note: '',
      });
      await clockBook.start(writing, {
        ...worked,
        ...on,
        ...plain,
        personId: person.id,
        begunAt: writing.at,
      });
      writing.says('Started the clock', `commission/${garment!.commissionId}`);
    });
    const after = (await hoursLeft(studio.read, [garment!.id])).get(garment!.id)!;
    expect(after.worked).toBe(20);
    expect(after.even).not.toBe(before.even);
    const { text } = await studio.get('/');
    expect(text).toContain('clock-now');
    expect(text).toContain(line.name);
  });
});
