import { z } from 'zod';
import type { CurrencyCode } from '../../domain/kernel/currency.js';
import { TAX_CATEGORIES, type TaxCategory } from '../../domain/papers/tax/category.js';
import type { TaxAnswer, TaxQuestion } from '../../domain/papers/tax/tax-question.js';
import { workOutTax } from '../../domain/papers/tax/work-out-tax.js';
import { amountsIn } from '../../web/api/amounts.js';
import { list, money, quantity, rate, signedMoney, signedQuantity } from '../../web/api/json-fields.js';
import { currency, question, shareText } from './question.js';

const CODES = Object.keys(TAX_CATEGORIES) as [TaxCategory, ...TaxCategory[]];

const rated = {
  category: z.enum(CODES, `Use one of the category codes ${CODES.join(', ')}.`),
  rate: quantity()
    .optional()
    .meta({ description: 'Per cent, 0 to 100; 0 when left out of an untaxed category.' }),
};

const onWhole = z.strictObject({ amount: signedMoney(), ...rated });

const schema = z.strictObject(
  {
    currency: currency(),
    lines: list(
      z.strictObject({
        quantity: signedQuantity(),
        price: rate(),
        baseQuantity: quantity().optional(),
        ...rated,
        allowances: list(signedMoney(), 50).optional(),
        charges: list(signedMoney(), 50).optional(),
      }),
      2000,
    ),
    allowances: list(onWhole, 200).optional(),
    charges: list(onWhole, 200).optional(),
    spreadDiscount: money()
      .optional()
      .meta({ description: 'A discount on the whole, shared over the groups.' }),
    prepaid: signedMoney().optional(),
    rounding: signedMoney().optional(),
    pricesInclude: z.enum(['none', 'tax'], 'Say none or tax.').optional(),
    grossPolicy: z.enum(['rounding', 'cent'], 'Say rounding or cent.').optional(),
  },
  'Send a JSON object.',
);

const taxQuestion = (asked: z.output<typeof schema>, of: CurrencyCode): TaxQuestion => {
  const amounts = amountsIn(of);
  const all = (given: typeof asked.allowances, field: string) =>
    given?.map((each, index) => ({
      ...each,
      amount: amounts.money(each.amount, `${field}.${index}.amount`),
    }));
  const wanted: TaxQuestion = {
    ...asked,
    currency: of,
    lines: asked.lines.map((line, index) => ({
      ...line,
      allowances: line.allowances?.map((each, at) => amounts.money(each, `lines.${index}.allowances.${at}`)),
      charges: line.charges?.map((each, at) => amounts.money(each, `lines.${index}.charges.${at}`)),
    })),
    allowances: all(asked.allowances, 'allowances'),
    charges: all(asked.charges, 'charges'),
    spreadDiscount: amounts.maybe(asked.spreadDiscount, 'spreadDiscount'),
    prepaid: amounts.maybe(asked.prepaid, 'prepaid'),
    rounding: amounts.maybe(asked.rounding, 'rounding'),
  };
  amounts.mustFit();
  return wanted;
};

const answerOf = ({ lines, groups, allowances, charges, ...totals }: TaxAnswer) => ({
  lines: lines.map(({ net }) => ({ net })),
  groups: groups.map((group) => ({ ...group, rate: shareText(group.rate) })),
  ...totals,
});

export const tax = question({
  schema,
  summary: 'The tax of a paper by category and rate (EN 16931)',
  examples: {
    'a jacket, a client’s own cloth, and a discount on the whole': {
      currency: 'EUR',
      lines: [
        { quantity: 1, price: '1549.50', category: 'S', rate: 21 },
        { quantity: '2.5', price: '48.00', category: 'S', rate: '9', allowances: ['5.00'] },
        { quantity: 1, price: '40.00', category: 'E' },
      ],
      charges: [{ amount: '12.00', category: 'S', rate: '21' }],
      spreadDiscount: '50.00',
      prepaid: '600.00',
    },
  },
  answer: (asked, of) => answerOf(workOutTax(taxQuestion(asked, asked.currency ?? of))),
});
