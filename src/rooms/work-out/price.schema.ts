import { z } from 'zod';
import { OVERHEAD_BASES } from '../../domain/costing/cost-lines.js';
import { TAX_CATEGORIES } from '../../domain/pricing/price-terms.js';
import { decimalMinutes, list, minutes, money, name, quantity, rate } from '../../web/api/json-fields.js';
import { currency } from './question.js';

const oneOf = <const W extends readonly [string, ...string[]]>(words: W) =>
  z.enum(words, `Use one of: ${words.join(', ')}.`);

const operation = z.strictObject({
  name: name(),
  mode: name().meta({ description: 'How it is worked; `machine` also costs machine time.' }),
  minutes: minutes().optional(),
  fixedMinutes: decimalMinutes().optional(),
  quantity: quantity().optional(),
  minutesPerUnit: decimalMinutes().optional(),
  pricedMinutes: decimalMinutes()
    .optional()
    .meta({ description: 'Minutes at the chosen degree of certainty, where they are known already.' }),
  perHour: rate().optional(),
});

const material = z.strictObject({
  name: name(),
  quantity: quantity(),
  unitCost: rate(),
  replacementUnitCost: rate().optional(),
  chargeAt: oneOf(['replacement', 'cost', 'nil']).optional(),
  wasteShare: quantity().optional(),
  wasteOf: oneOf(['net', 'gross']).optional(),
  handling: z.boolean('Say true or false.').optional(),
});

const pricing = z.strictObject({
  margin: quantity().optional().meta({ description: 'Share of the price; not beside `markup`.' }),
  markup: quantity().optional().meta({ description: 'Share of the cost; not beside `margin`.' }),
  handlingShare: quantity().optional(),
  minimumCharge: money().optional(),
  rushShare: quantity().optional(),
  rushOn: oneOf(['labour', 'price']).optional(),
  discount: money().optional(),
  roundTo: money().optional(),
});

const certainty = z
  .number('Give a chance from 0.5 to 0.99, such as 0.8 for 4 in 5.')
  .min(0.5, 'Give a chance from 0.5 to 0.99.')
  .max(0.99, 'Give a chance from 0.5 to 0.99.');

/** Everything a price is worked out from. */
export const PriceQuestion = z
  .strictObject(
    {
      currency: currency(),
      labour: z.strictObject(
        { perHour: rate(), perHourByMode: z.record(z.string().max(400), rate()).optional() },
        'Say what an hour of labour costs: { "perHour": "22.69" }.',
      ),
      machinePerHour: rate().optional(),
      overhead: list(
        z.strictObject({
          name: name(),
          base: oneOf(OVERHEAD_BASES),
          rate: quantity().meta({
            description: 'Money an hour for the two hour bases, a share for the two cost bases.',
          }),
        }),
        50,
      ).optional(),
      operations: list(operation, 1000).optional(),
      materials: list(material, 1000).optional(),
      expenses: list(z.strictObject({ name: name(), amount: money() }), 1000).optional(),
      wasteOf: oneOf(['net', 'gross']).optional(),
      mendingShare: quantity().optional(),
      keptBackMinutes: decimalMinutes().optional(),
      certainty: certainty.optional().meta({
        description:
          'Degree of certainty to price at, from the starting values of the model: planned minutes become minutes ' +
          'at that chance, and the chance of a loss is worked out. Left out, planned minutes are taken as they are.',
      }),
      overruns: oneOf(['no', 'a-little', 'a-lot', 'unknown']).optional(),
      pricing: pricing.optional(),
      tax: z
        .strictObject({
          category: oneOf(TAX_CATEGORIES),
          rate: quantity().optional().meta({ description: 'Per cent, 0 to 100.' }),
        })
        .optional(),
      pricesInclude: oneOf(['none', 'tax']).optional(),
    },
    'Send a JSON object.',
  )
  .superRefine((asked, context) => {
    const say = (path: (string | number)[], message: string) =>
      context.addIssue({ code: 'custom', path, message });
    if (asked.pricing?.margin && asked.pricing.markup)
      say(['pricing', 'markup'], 'Give a margin or a markup, not both.');
    asked.operations?.forEach((each, index) => {
      const driven = each.fixedMinutes ?? each.quantity ?? each.minutesPerUnit;
      if (each.minutes !== undefined && driven !== undefined)
        say(
          ['operations', index, 'minutes'],
          'Give either the minutes, or fixed minutes with a quantity and minutes per unit, not both.',
        );
    });
    const given = asked.operations?.findIndex((each) => each.pricedMinutes !== undefined) ?? -1;
    if (given >= 0 && (asked.certainty !== undefined || asked.keptBackMinutes))
      say(
        ['operations', given, 'pricedMinutes'],
        'Give priced minutes, or a certainty, or minutes kept back: one of them.',
      );
    else if (asked.certainty !== undefined && asked.keptBackMinutes)
      say(['keptBackMinutes'], 'Give a certainty or minutes kept back, not both.');
  });
