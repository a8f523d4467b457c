import { z } from 'zod';
import { type Movement, STOCK_METHODS } from '../../domain/stock/movements.js';
import { workOutStock } from '../../domain/stock/work-out-stock.js';
import { list, name, quantity, rate } from '../../web/api/json-fields.js';
import { currency, question, shareText, unitText } from './question.js';

const moved = { quantity: quantity(), lot: name().optional() };

const schema = z.strictObject(
  {
    currency: currency(),
    method: z.enum(STOCK_METHODS, `Use one of: ${STOCK_METHODS.join(', ')}.`),
    movements: list(
      z.discriminatedUnion(
        'kind',
        [
          z.strictObject({ kind: z.literal('buy'), unitCost: rate(), ...moved }),
          z.strictObject({ kind: z.literal('issue'), ...moved }),
          z.strictObject({ kind: z.literal('waste'), ...moved }),
          z.strictObject({
            kind: z.literal('return'),
            of: z
              .int('Name the issue by its place among the movements, from 0.')
              .min(0, 'Places are counted from 0.')
              .optional()
              .meta({
                description:
                  'The issue that came back, by its place among the movements, counted from 0. May be left out where ' +
                  'there was one issue only, or where `lot` names the lot it came from.',
              }),
            ...moved,
          }),
        ],
        'Say what kind of movement it is: buy, issue, waste or return.',
      ),
      5000,
    ),
  },
  'Send a JSON object.',
);

type Sent = z.output<typeof schema>['movements'];

/** A return that names only its lot undoes the last issue from that lot. */
const movementsOf = (sent: Sent): Movement[] =>
  sent.map((each, index): Movement => {
    if (each.kind !== 'return') return each;
    const { lot, ...plain } = each;
    if (plain.of !== undefined || lot === undefined) return plain;
    const of = sent
      .slice(0, index)
      .findLastIndex(
        (earlier) => (earlier.kind === 'issue' || earlier.kind === 'waste') && earlier.lot === lot,
      );
    return of < 0 ? plain : { ...plain, of };
  });

export const stock = question({
  schema,
  summary: 'What issues of a material cost and what is left on the shelf',
  examples: {
    'lining, first in first out': {
      currency: 'EUR',
      method: 'first-in-first-out',
      movements: [
        { kind: 'buy', lot: 'spring', quantity: '10', unitCost: '8.00' },
        { kind: 'buy', lot: 'summer', quantity: '10', unitCost: '9.50' },
        { kind: 'issue', quantity: '12.5' },
        { kind: 'return', quantity: '1', of: 2 },
      ],
    },
    'tweed, the very piece': {
      currency: 'EUR',
      method: 'lot',
      movements: [
        { kind: 'buy', lot: 'T-1', quantity: '5.20', unitCost: '46.00' },
        { kind: 'issue', lot: 'T-1', quantity: '3.00' },
      ],
    },
  },
  answer: (asked, own) => {
    const of = asked.currency ?? own;
    const answer = workOutStock(of, asked.method, movementsOf(asked.movements));
    return {
      issued: answer.issued.map((each) => ({ ...each, quantity: shareText(each.quantity) })),
      issuedCost: answer.issuedCost,
      onHand: shareText(answer.onHand),
      value: answer.value,
      averageUnitCost: answer.averageUnitCost && unitText(answer.averageUnitCost, of),
      lots: answer.lots.map((lot) => ({ ...lot, quantity: shareText(lot.quantity) })),
    };
  },
});
