import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { TaxAnswer, TaxedLine } from '../../../src/domain/papers/tax/tax-question.js';
import { workOutTax } from '../../../src/domain/papers/tax/work-out-tax.js';
import { type Row, rows } from './complete-invoices.js';

const asked = (row: Row): TaxAnswer => {
  const currency = row.currency ?? 'EUR';
  const money = (text: string): Money => Money.parse(text, currency);
  const rate = (text?: string) => (text === undefined ? undefined : new Decimal(text));
  return workOutTax({
    currency,
    lines: row.lines.map(
      ([quantity, price, category, percent, allowances, charges, base]): TaxedLine => ({
        quantity: new Decimal(quantity),
        price: new Decimal(price),
        category,
        rate: rate(percent),
        allowances: allowances?.map(money),
        charges: charges?.map(money),
        baseQuantity: rate(base),
      }),
    ),
    allowances: row.allowances?.map(([amount, category, percent]) => ({
      amount: money(amount),
      category,
      rate: rate(percent),
    })),
    charges: row.charges?.map(([amount, category, percent]) => ({
      amount: money(amount),
      category,
      rate: rate(percent),
    })),
    prepaid: row.prepaid === undefined ? undefined : money(row.prepaid),
  });
};

describe('complete invoices published by the rule makers', () => {
  it.each(rows)('$title', (row) => {
    const answer = asked(row);
    expect(answer.groups.map((g) => `${g.category} ${g.rate.toFixed()} ${g.base} ${g.tax}`)).toEqual(
      row.groups,
    );
    for (const [term, amount] of Object.entries(row.totals)) {
      expect(answer[term as 'BT-106'].toString(), term).toBe(
        Money.parse(amount, row.currency ?? 'EUR').toString(),
      );
    }
  });
});
