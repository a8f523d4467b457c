import { z } from 'zod';
import { CHARGED_AT, type ExpenseLine, type MaterialLine } from '../../../domain/commissions/garment.js';
import type { Studio } from '../../../domain/house/studio.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { QUANTITY_UNITS, Quantity, type QuantityUnit } from '../../../domain/kernel/quantity.js';
import { line, oneOf, optionalLine, yesNo } from '../../../web/fields/fields.js';
import { type FieldKit, sentKit, typedAs, typedKit } from '../../../web/fields/kits.js';
import { moneyForField } from '../../../web/words/amounts.js';
import { quantityInWords, readCloth } from '../../../web/words/cloth.js';
import { decimalSignOf, numeralText } from '../../../web/words/numeral.js';
import { shareForField } from '../../../web/words/shares.js';

export type MaterialSaid = Omit<MaterialLine, 'id' | 'version'>;
export type ExpenseSaid = Omit<ExpenseLine, 'id' | 'version'>;

const MOST_COST = { most: 10_000_000 };
const wasteFields = (kit: FieldKit) => ({
  wasteOf: oneOf(['net', 'gross']).default('net'),
  handling: yesNo(),
  replacementUnitCost: kit.optionalNumber(MOST_COST),
  chargeAt: oneOf(CHARGED_AT).default('replacement'),
  shownToClient: yesNo(),
  clientWording: optionalLine(400),
});

type Common = z.output<z.ZodObject<ReturnType<typeof wasteFields>>> & {
  name: string;
  quantity: Quantity;
  unitCost: Decimal;
  wasteShare: Decimal;
};

const saidOf = ({ quantity, replacementUnitCost, ...said }: Common): MaterialSaid => ({
  ...said,
  quantity: quantity.amount,
  unit: quantity.unit,
  replacementUnitCost,
});

const belowAll = (said: { wasteOf: 'net' | 'gross'; wasteShare?: Decimal | undefined }): boolean =>
  said.wasteOf === 'net' || !said.wasteShare?.gte(1);
const ALL_WASTE = {
  path: ['waste'],
  message: 'Waste of the whole length must stay below 100 %, or nothing is left of it.',
};

/** A material as people write it; `3.2m @ 46` in one field says its cost too. */
export const MaterialForm = ({ identity }: Studio) => {
  const kit = typedKit(identity);
  return z
    .strictObject({
      name: line('What is it? Write a few words.', 200),
      quantity: typedAs(
        (typed) => readCloth(typed, { ...identity, clothUnit: identity.clothUnit }),
        'How much of it? Write it like 3.2 m or 12 pieces.',
      ),
      unitCost: kit.optionalNumber(MOST_COST),
      waste: kit.share('Write a percentage, 0 for none.', { most: 1000 }),
      ...wasteFields(kit),
    })
    .transform((said, ctx): MaterialSaid => {
      const written = said.quantity?.unitPrice?.toDecimal();
      const unitCost = said.unitCost ?? written;
      if (unitCost === undefined)
        ctx.addIssue({
          code: 'custom',
          path: ['unitCost'],
          message: 'What does one cost? Write 0 for stash that cost nothing.',
        });
      else if (written && !unitCost.eq(written))
        ctx.addIssue({
          code: 'custom',
          path: ['unitCost'],
          message: 'The quantity says another cost after @. Keep one of the two.',
        });
      if (!belowAll({ ...said, wasteShare: said.waste })) ctx.addIssue({ code: 'custom', ...ALL_WASTE });
      const { waste, quantity, ...rest } = said;
      return saidOf({
        ...rest,
        wasteShare: waste,
        quantity: quantity?.quantity ?? new Quantity(new Decimal(0), 'm'),
        unitCost: unitCost ?? new Decimal(0),
      });
    });
};

const UNITS = Object.keys(QUANTITY_UNITS) as [QuantityUnit, ...QuantityUnit[]];

/** A material as a program sends it. */
export const MaterialSent = (currency: string) => {
  const kit = sentKit(currency);
  return z
    .strictObject({
      name: line('Name the material.', 200),
      quantity: kit.number('Send a quantity such as "5.20".', { most: 100_000 }),
      unit: oneOf(UNITS, 'Send a unit of quantity such as "m" or "piece".'),
      unitCost: kit.number('Send a cost for one such as "46.00".', MOST_COST),
      wasteShare: kit.share('Send a share such as "0.05".', { most: 1000 }).default(new Decimal(0)),
      ...wasteFields(kit),
    })
    .refine(belowAll, { ...ALL_WASTE, path: ['wasteShare'] })
    .transform(({ unit, quantity, ...said }) => saidOf({ ...said, quantity: new Quantity(quantity, unit) }));
};

/** An expense as people write it. */
export const ExpenseForm = ({ identity }: Studio) =>
  z
    .strictObject({
      expense: line('What is it for? Write a few words.', 200),
      amount: typedKit(identity).money('How much? Write it like 12.00.'),
      shownToClient: yesNo(),
      clientWording: optionalLine(400),
    })
    .transform(({ expense, ...said }): ExpenseSaid => ({ ...said, name: expense }));

/** An expense as a program sends it. */
export const ExpenseSent = (currency: string) =>
  z.strictObject({
    name: line('Name the expense.', 200),
    amount: sentKit(currency).money('Send an amount such as "12.00".'),
    shownToClient: yesNo(),
    clientWording: optionalLine(400),
  });

/** A material as its form's fields. */
export const typedMaterial = (one: MaterialLine, locale: string): Record<string, string> => {
  const sign = decimalSignOf(locale);
  return {
    name: one.name,
    quantity: quantityInWords(new Quantity(one.quantity, one.unit), locale),
    unitCost: numeralText(one.unitCost, sign),
    waste: shareForField(one.wasteShare),
    wasteOf: one.wasteOf,
    handling: one.handling ? 'yes' : 'no',
    replacementUnitCost: one.replacementUnitCost ? numeralText(one.replacementUnitCost, sign) : '',
    chargeAt: one.chargeAt,
    shownToClient: one.shownToClient ? 'yes' : 'no',
    clientWording: one.clientWording,
  };
};

/** An expense as its form's fields. */
export const typedExpense = (one: ExpenseLine, locale: string): Record<string, string> => ({
  expense: one.name,
  amount: moneyForField(one.amount, locale),
  shownToClient: one.shownToClient ? 'yes' : 'no',
  clientWording: one.clientWording,
});
