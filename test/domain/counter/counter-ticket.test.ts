import { describe, expect, it } from 'vitest';
import {
  checkCounter,
  counterComesTo,
  counterState,
  daysWaiting,
} from '../../../src/domain/counter/counter-ticket.js';
import type { Invalid } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';

const eur = (amount: string) => Money.parse(amount, 'EUR');
const HEM = { job: 'Hem', price: eur('18') };
const TICKET = {
  lines: [HEM],
  cameOn: '2026-03-02',
  readyBy: '2026-03-06',
  readyOn: undefined,
  collectedOn: undefined,
} as const;
const refused = (words: object): string[] => {
  try {
    checkCounter({ ...TICKET, ...words }, '2026-03-20');
    return [];
  } catch (error) {
    return (error as Invalid).fields.map(({ field }) => field);
  }
};

describe('a counter ticket', () => {
  it('comes to the prices that are known, and says how many are not', () => {
    const lines = [HEM, { job: 'Button', price: eur('0') }, { job: 'Zip', price: undefined }];
    const { total, open } = counterComesTo({ lines, currency: 'EUR' });
    expect([total.toString(), open]).toEqual(['18.00', 1]);
    expect(counterComesTo({ lines: [], currency: 'JPY' }).total.toString()).toBe('0');
  });

  it('stands as in work, late, ready, collected', () => {
    expect(counterState(TICKET, '2026-03-06')).toBe('in-work');
    expect(counterState(TICKET, '2026-03-07')).toBe('late');
    expect(counterState({ ...TICKET, readyOn: '2026-03-07' }, '2026-04-01')).toBe('ready');
    expect(counterState({ ...TICKET, collectedOn: '2026-03-07' }, '2026-04-01')).toBe('collected');
  });

  it('waits from the day it was ready until it is collected', () => {
    expect(daysWaiting(TICKET, '2026-05-01')).toBe(0);
    expect(daysWaiting({ readyOn: '2026-03-06', collectedOn: undefined }, '2026-03-06')).toBe(0);
    expect(daysWaiting({ readyOn: '2026-02-27', collectedOn: undefined }, '2026-03-02')).toBe(3);
    expect(daysWaiting({ readyOn: '2026-02-27', collectedOn: '2026-03-01' }, '2026-03-02')).toBe(0);
  });

  it.each([
    [{}, []],
    [{ lines: [] }, ['lines.0.job']],
    [{ lines: Array.from({ length: 21 }, () => HEM) }, ['lines.0.job']],
    [{ lines: [HEM, { job: 'Zip', price: eur('-1') }] }, ['lines.1.price']],
    [{ cameOn: '2026-03-21', readyBy: undefined }, ['cameOn']],
    [{ readyBy: '2026-03-01' }, ['readyBy']],
    [{ readyOn: '2026-03-01' }, ['readyOn']],
    [{ readyOn: '2026-03-21' }, ['readyOn']],
    [{ collectedOn: '2026-03-01' }, ['collectedOn']],
    [{ collectedOn: '2026-03-21' }, ['collectedOn']],
  ])('%o is refused at %o', (words, fields) => {
    expect(refused(words)).toEqual(fields);
  });
});
