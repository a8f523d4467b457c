import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { TaxCategory } from '../../../src/domain/papers/tax/category.js';
import { workOutTax } from '../../../src/domain/papers/tax/work-out-tax.js';

/*
 * Lines, groups and totals of 45 official example invoices, as facts. Each entry names its own source:
 * CEN EN 16931 validation artefacts 1.3.16 (ConnectingEurope/eInvoicing-EN16931, EUPL-1.2), OpenPEPPOL BIS Billing 3.0.19
 * examples, KoSIT XRechnung test suite (Apache-2.0). Examples whose printed quantity and price disagree with their line
 * net (three of them, in the artefacts' guide examples 1 to 3) are not among them. Amounts carry two decimals throughout.
 */
type Example = {
  source: string;
  lines: {
    quantity: string;
    price: string;
    baseQuantity?: string;
    category: TaxCategory;
    rate?: string;
    net: string;
    allowancesAndCharges?: { charge: boolean; amount: string }[];
  }[];
  documentAllowancesAndCharges: { charge: boolean; amount: string; category: TaxCategory; rate?: string }[];
  vat: { category: TaxCategory; rate?: string; base: string; tax: string }[];
  totals: Record<string, string>;
};

const examples: Example[] = JSON.parse(
  readFileSync(new URL('../values/en16931-examples.json', import.meta.url), 'utf8'),
);

const money = (text: string): Money => Money.parse(text, 'EUR');
const rate = (text?: string): Decimal | undefined => (text === undefined ? undefined : new Decimal(text));

const answerOf = (example: Example) => {
  const some = (charge: boolean) =>
    example.documentAllowancesAndCharges
      .filter((each) => each.charge === charge)
      .map((each) => ({ amount: money(each.amount), category: each.category, rate: rate(each.rate) }));
  return workOutTax({
    currency: 'EUR',
    lines: example.lines.map((line) => ({
      quantity: new Decimal(line.quantity),
      price: new Decimal(line.price),
      baseQuantity: rate(line.baseQuantity),
      category: line.category,
      rate: rate(line.rate),
      allowances: line.allowancesAndCharges?.filter((a) => !a.charge).map((a) => money(a.amount)),
      charges: line.allowancesAndCharges?.filter((a) => a.charge).map((a) => money(a.amount)),
    })),
    allowances: some(false),
    charges: some(true),
    prepaid: money(example.totals['BT-113'] ?? '0'),
    rounding: money(example.totals['BT-114'] ?? '0'),
  });
};

describe('the official example invoices of EN 16931, to the cent', () => {
  it('are 45', () => expect(examples).toHaveLength(45));

  it.each(examples.map((example, index) => ({ name: `${index + 1}. ${example.source}`, example })))(
    '$name',
    ({ example }) => {
      const answer = answerOf(example);
      expect(answer.lines.map((line) => line.net.toString())).toEqual(
        example.lines.map((line) => money(line.net).toString()),
      );
      const words = (group: { category: string; rate: Decimal; base: Money; tax: Money }) =>
        `${group.category} ${group.rate.toFixed()}: ${group.base} -> ${group.tax}`;
      expect(answer.groups.map(words).sort()).toEqual(
        example.vat
          .map((group) =>
            words({
              category: group.category,
              rate: new Decimal(group.rate ?? '0'),
              base: money(group.base),
              tax: money(group.tax),
            }),
          )
          .sort(),
      );
      for (const [term, amount] of Object.entries(example.totals)) {
        expect(`${term} ${answer[term as 'BT-106']}`).toBe(`${term} ${money(amount)}`);
      }
    },
  );
});
