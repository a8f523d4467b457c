import { describe, expect, it } from 'vitest';
import { Money } from '../../../src/domain/kernel/money.js';
import { expensesToCome } from '../../../src/domain/money-out/expenses-to-come.js';

const eur = (amount: number) => Money.ofMinor(amount * 100, 'EUR');

describe('expenses still to come', () => {
  it.each([
    ['nothing came yet', 50, 0, 0, 50],
    ['part of the plan came', 50, 20, 0, 30],
    ['more came than was planned', 50, 80, 0, 0],
    ['outwork is agreed within the plan', 50, 0, 30, 50],
    ['outwork is agreed beyond the plan', 50, 40, 30, 30],
    ['nothing was planned', 0, 0, 30, 30],
  ])('%s', (_, planned, soFar, agreed, toCome) => {
    expect(expensesToCome(eur(planned), eur(soFar), eur(agreed)).equals(eur(toCome))).toBe(true);
  });
});
