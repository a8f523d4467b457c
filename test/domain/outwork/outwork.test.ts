import { describe, expect, it } from 'vitest';
import type { Invalid } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { checkOutwork, daysLate, outworkComesTo, outworkState } from '../../../src/domain/outwork/outwork.js';

const eur = (amount: string) => Money.parse(amount, 'EUR');
const WORK = {
  pieces: 8,
  pieceRate: eur('3.50'),
  outOn: '2026-03-02',
  dueOn: '2026-03-09',
  backOn: undefined,
  checkedOn: undefined,
} as const;
const refused = (words: object): string[] => {
  try {
    checkOutwork({ ...WORK, ...words }, '2026-03-20');
    return [];
  } catch (error) {
    return (error as Invalid).fields.map(({ field }) => field);
  }
};

describe('outwork', () => {
  it('comes to pieces times the piece rate', () => {
    expect(outworkComesTo(WORK).toString()).toBe('28.00');
    expect(outworkComesTo({ pieces: 9999, pieceRate: eur('0') }).isZero()).toBe(true);
  });

  it('is late from the day after it was due until it is back', () => {
    expect(daysLate(WORK, '2026-03-09')).toBe(0);
    expect(daysLate(WORK, '2026-03-10')).toBe(1);
    expect(daysLate({ ...WORK, backOn: '2026-03-12' }, '2026-03-20')).toBe(0);
    expect(daysLate({ ...WORK, dueOn: undefined }, '2030-01-01')).toBe(0);
  });

  it('stands as out, back, checked, paid', () => {
    expect(outworkState(WORK, false)).toBe('out');
    expect(outworkState({ ...WORK, backOn: '2026-03-09' }, false)).toBe('back');
    expect(outworkState({ backOn: '2026-03-09', checkedOn: '2026-03-09' }, false)).toBe('checked');
    expect(outworkState({ backOn: '2026-03-09', checkedOn: undefined }, true)).toBe('paid');
  });

  it.each([
    [{}, []],
    [{ pieces: 0 }, ['pieces']],
    [{ pieces: 1.5 }, ['pieces']],
    [{ pieces: 10_000 }, ['pieces']],
    [{ pieceRate: eur('-0.01') }, ['pieceRate']],
    [{ dueOn: '2026-03-01' }, ['dueOn']],
    [{ backOn: '2026-03-01' }, ['backOn']],
    [{ backOn: '2026-03-21' }, ['backOn']],
    [{ checkedOn: '2026-03-10' }, ['checkedOn']],
    [{ backOn: '2026-03-10', checkedOn: '2026-03-09' }, ['checkedOn']],
    [{ backOn: '2026-03-10', checkedOn: '2026-03-21' }, ['checkedOn']],
  ])('%o is refused at %o', (words, fields) => {
    expect(refused(words)).toEqual(fields);
  });
});
