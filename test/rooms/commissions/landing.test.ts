import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { WorkedOn } from '../../../src/domain/bench/bench-entry.js';
import type { Cause } from '../../../src/domain/costing/causes.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { rateCard } from '../../../src/domain/rates/rate-card.js';
import { benchBook } from '../../../src/storage/books/bench/bench-book.js';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { personBook } from '../../../src/storage/books/bench/person-book.js';
import { ratesBook } from '../../../src/storage/books/rates-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission, planOf } from './an-opening.js';

const euro = (text: string): Money => Money.parse(text, 'EUR');

describe('where a garment lands', () => {
  let studio: TestStudio;
  let commission: string;
  let jacket: string;
  let plan: Awaited<ReturnType<typeof planOf>>;
  const id = (url: string): string => url.split('/').at(-1)!;
  const forecast = async () => (await studio.api('GET', `/api/garments/${id(jacket)}/forecast`)).json();

  beforeAll(async () => {
    studio = await openTestStudio();
    commission = await openCommission(studio);
    [jacket] = (await garmentsOf(studio, commission)) as [string];
    plan = await planOf(studio, jacket);
  });
  afterAll(() => studio.close());

  const work = async (
    operation: (typeof plan)[number] | undefined,
    minutes: number,
    more: { cause?: Cause; name?: string } = {},
  ): Promise<void> => {
    studio.clock.forward(1);
    await studio.unit.write(studio.visit, async (writing) => {
      const person = await personBook.mine(writing);
      const worked: WorkedOn = {
        commissionId: id(commission),
        garmentId: id(jacket),
        operationId: operation?.id,
        kind: String(operation?.kind ?? more.name ?? ''),
        name: operation?.name ?? more.name ?? '',
        stage: undefined,
        mode: undefined,
        away: undefined,
      };
      await benchBook.add(writing, {
        ...worked,
        personId: person.id,
        personName: person.name,
        garmentName: 'Jacket',
        minutes,
        on: '2026-03-01',
        begunAt: undefined,
        endedAt: undefined,
        cause: more.cause,
        extraId: undefined,
        way: 'line',
        note: '',
      });
      writing.says('Wrote minutes', `commission/${id(commission)}`);
    });
  };
  const finish = (operation: (typeof plan)[number]) =>
    studio.unit.write(studio.visit, async (writing) => {
      writing.says('Finished an operation', `commission/${id(commission)}`);
      return garmentMarkBook.add(writing, {
        garmentId: id(jacket),
        commissionId: id(commission),
        kind: 'operation-finished',
        operationId: operation.id,
        on: '2026-03-01',
        words: '',
        document: '',
      });
    });

  it('says that it needs rates before anything else', async () => {
    const answer = await studio.api('GET', `/api/garments/${id(jacket)}/forecast`);
    expect(answer.status).toBe(409);
    expect(answer.json().detail).toContain('no rates yet');
    expect((await studio.get(`${jacket}/landing`)).status).toBe(303);
    await studio.unit.write(studio.visit, async (writing) => {
      const person = {
        name: 'Odalys Fenwright',
        pay: euro('0.00'),
        onCosts: [],
        plainPerHour: euro('20.00'),
        perHourByMode: {},
      };
      await ratesBook.setFrom(
        writing,
        rateCard('2026-01-01', { currency: 'EUR', people: [person], overhead: [] }),
      );
      writing.says('Set the hour', 'rates');
    });
  });

  it('before the first minute: all is left, nothing on the job sheet but the sum', async () => {
    const told = await forecast();
    expect(told.soFar).toEqual({ minutes: '0', cost: '0.00' });
    expect(told.standing).toBe('to-make');
    expect(Number(told.forecast['0.5'].left)).toBeGreaterThan(0);
    expect((await studio.get(jacket)).text).not.toContain('Where it will land');
  });

  it('once worked: minutes and money so far, the rest in the light of them, and nothing twice', async () => {
    const [first, second] = plan.filter((one) => Number(one.fixedMinutes) > 0) as [
      (typeof plan)[number],
      (typeof plan)[number],
    ];
    await work(first, 90);
    await work(first, 30, { cause: 'own error' });
    await work(second, 10);
    await work(undefined, 15, { cause: 'forgotten in the plan', name: 'Inside pocket' });
    await finish(first);
    const told = await forecast();
    // 145 minutes at 20.00 an hour, each operation rounded once: 120 and 10 and 15 minutes.
    expect(told.soFar).toEqual({ minutes: '145', cost: '48.33' });
    expect(told.ownErrorMinutes).toBe(30);
    expect(told.besideMinutes).toBe(15);
    const state = (line: { id: string }) =>
      told.operations.find(({ operation }: { operation: string }) => operation === line.id);
    expect(state(first)).toMatchObject({ minutes: 90, state: 'finished' });
    expect(state(second)).toMatchObject({ minutes: 10, state: 'under-way' });
    for (const chance of ['0.5', '0.8', '0.9']) {
      const { minutes, left, cost, profit } = told.forecast[chance];
      expect(Number(minutes)).toBeCloseTo(Number(left) + 145, 1);
      expect(euro(cost).plus(euro(profit)).toString()).toBe(told.price);
    }
    expect(Number(told.forecast['0.5'].left)).toBeLessThan(Number(told.forecast['0.8'].left));
    expect(told.isAgreed).toBe(false);
    expect(told.earnedValue.actualCost).toBe('48.33');
  });

  it('the job sheet and the commission say it in a sentence, the page opens every figure', async () => {
    const job = await studio.get(jacket);
    expect(job.text).toContain('Where it will land');
    expect(job.text).toContain('2 h 25, €48.33');
    expect((await studio.get(commission)).text).toContain('Where it will land');
    const page = await studio.get(`${jacket}/landing`);
    expect(page.status, page.text.slice(0, 800)).toBe(200);
    expect(page.text).toContain('<svg class="strip"');
    expect(page.text).toContain('Inside pocket');
    expect(page.text).toContain('Own error: 30 min');
    expect(page.text).toContain('No price is agreed yet');
    const whole = await studio.get(`${commission}/landing`);
    expect(whole.status, whole.text.slice(0, 800)).toBe(200);
    expect((await studio.get(`/commissions/nobody/garments/${id(jacket)}/landing`)).status).toBe(404);
  });

  it('the cost sheet has four columns, the last empty until the garment is closed', async () => {
    const { columns, costSheet } = (await studio.api('GET', `/api/garments/${id(jacket)}/cost-sheet`)).json();
    expect(columns.soFar.cost).toBe('48.33');
    expect(columns.planned.materials).toBe(costSheet.materials);
    expect(columns.planned.cost).toBe(costSheet.cost);
    expect(euro(columns.forecast.labour).minor).toBeGreaterThan(euro(columns.soFar.labour).minor);
    expect(columns.actual).toBeNull();
  });

  it('a reversed entry is as if it had not been', async () => {
    const [entry] = await benchBook.newest(studio.read, 1, undefined, { garmentId: id(jacket) });
    await studio.unit.write(studio.visit, async (writing) => {
      await benchBook.reverse(writing, entry!.id, 'A slip');
      writing.says('Took minutes back', `commission/${id(commission)}`);
    });
    expect((await forecast()).soFar.minutes).toBe('130');
    const told = (await studio.api('GET', `/api${commission}/forecast`)).json();
    expect(told.soFar.minutes).toBe('130');
    expect(told.garments).toHaveLength(1);
  });

  it('once handed over nothing is to come, though its operations were not all pressed finished', async () => {
    await studio.unit.write(studio.visit, async (writing) => {
      const [commissionId, garmentId] = [id(commission), id(jacket)];
      const left = {
        kind: 'delivered',
        operationId: undefined,
        on: '2026-03-02',
        words: '',
        document: '',
      } as const;
      await garmentMarkBook.add(writing, { garmentId, commissionId, ...left });
      writing.says('Handed over', `commission/${commissionId}`);
    });
    const told = await forecast();
    expect(told.soFar.minutes).toBe('130');
    for (const chance of ['0.5', '0.8', '0.9'])
      expect(told.forecast[chance]).toMatchObject({ minutes: '130', left: '0' });
  });
});
