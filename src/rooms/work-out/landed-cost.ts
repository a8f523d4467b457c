import { z } from 'zod';
import { landedCost as landed } from '../../domain/stock/landed-cost.js';
import { amountsIn } from '../../web/api/amounts.js';
import { list, money, quantity, rate } from '../../web/api/json-fields.js';
import { currency, question, unitText } from './question.js';

const schema = z.strictObject(
  {
    currency: currency(),
    lines: list(z.strictObject({ quantity: quantity(), unitPrice: rate() }), 2000),
    shared: money().meta({ description: 'Freight, duty and tax that is not recoverable.' }),
    by: z.enum(['value', 'quantity'], 'Share by value or by quantity.').default('value'),
  },
  'Send a JSON object.',
);

export const landedCost = question({
  schema,
  summary: 'What goods cost once they are on the shelf',
  examples: {
    'carriage over two cloths': {
      currency: 'EUR',
      lines: [
        { quantity: '5.20', unitPrice: '46.00' },
        { quantity: 3, unitPrice: '12.50' },
      ],
      shared: '750.00',
      by: 'value',
    },
  },
  answer: (asked, own) => {
    const of = asked.currency ?? own;
    const amounts = amountsIn(of);
    const shared = amounts.money(asked.shared, 'shared');
    amounts.mustFit();
    const lines = landed(of, asked.lines, shared, asked.by);
    return {
      lines: lines.map((line) => ({ ...line, landedUnitCost: unitText(line.landedUnitCost, of) })),
    };
  },
});
