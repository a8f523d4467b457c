import { z } from 'zod';
import { CHARGED_AT } from '../../../domain/commissions/garment.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import type { QuantityUnit } from '../../../domain/kernel/quantity.js';
import { AGES, type Lot } from '../../../domain/stock/lot.js';
import { line, oneOf, optionalLine } from '../../../web/fields/fields.js';
import { typedAs } from '../../../web/fields/kits.js';
import { decimalSignOf, numeralText } from '../../../web/words/numeral.js';
import { pastDay } from '../movements/movement.form.js';
import { readQuantityIn, type StockFields } from '../stock-fields.js';

const MOST_COST = { most: 10_000_000 };

const remarkFields = (fields: StockFields) => ({
  width: fields.length(),
  dyeLot: optionalLine(100),
  flaws: optionalLine(400),
  age: oneOf(AGES).default('new'),
  believedAge: optionalLine(200),
  provenance: optionalLine(400),
  replacementUnitCost: fields.kit.optionalNumber(MOST_COST),
  chargeAt: oneOf(CHARGED_AT).default('replacement'),
  chargeReason: optionalLine(400),
  smell: optionalLine(200),
  shrinkTest: optionalLine(400),
});

const WITHOUT_REASON = {
  path: ['chargeReason'],
  message: 'Say why it is not charged at what it would cost to replace.',
};
const hasReason = (said: { chargeAt: string; chargeReason: string }): boolean =>
  said.chargeAt === 'replacement' || said.chargeReason !== '';

/** What may be said better about a lot later on. */
export const RemarkFields = (fields: StockFields) =>
  z.strictObject(remarkFields(fields)).refine(hasReason, WITHOUT_REASON);

/** Something owned before: from the stash. Its cost may be nil, or known to nobody. */
export const StashFields = (fields: StockFields, unit: QuantityUnit, today: string) =>
  z
    .strictObject({
      ...remarkFields(fields),
      quantity: fields.quantity(unit, 'How much of it is there?'),
      on: pastDay(today).default(today),
      costIs: oneOf(['nil', 'unknown', 'known']).default('nil'),
      unitCost: fields.kit.optionalNumber(MOST_COST),
      age: oneOf(AGES).default('unknown'),
    })
    .refine(hasReason, WITHOUT_REASON)
    .refine(({ costIs, unitCost }) => costIs !== 'known' || unitCost !== undefined, {
      path: ['unitCost'],
      message: 'What did one cost?',
    });
export type StashSaid = z.output<ReturnType<typeof StashFields>>;

/** A client’s own cloth, looked over as it is taken in. */
export const CustodyFields = (fields: StockFields, unit: QuantityUnit, today: string) =>
  z.strictObject({
    owner: line('Whose cloth is it?', 40),
    quantity: fields.quantity(unit, 'How much of it is there, by the tape?'),
    on: pastDay(today).default(today),
    width: fields.length(),
    dyeLot: optionalLine(100),
    flaws: line('Say how it is: holes, stains, moth, or “none seen”.', 400),
    smell: line('Say how it smells, or “none”.', 200),
    shrinkTest: line('Say what the shrink test showed, or “not done”.', 400),
    age: oneOf(AGES).default('unknown'),
    believedAge: optionalLine(200),
    provenance: optionalLine(400),
    /** What the client says it is worth, for the receipt. */
    replacementUnitCost: fields.kit.optionalNumber(MOST_COST),
  });
export type CustodySaid = z.output<ReturnType<typeof CustodyFields>>;

/** What the tape says, and why it differs from the book. */
export const MeasuredForm = (identity: StudioIdentity, unit: QuantityUnit, today: string) =>
  z.strictObject({
    measured: typedAs(
      (typed) => readQuantityIn(typed, identity, unit, 'nought'),
      'What does the tape say?',
    ) as z.ZodType<Decimal>,
    reason: line('Say why it differs: an offcut thrown away, a slip, a short delivery.', 400),
    on: pastDay(today).default(today),
  });
export const MeasuredSent = ({ kit }: StockFields, today: string) =>
  z.strictObject({
    measured: kit.number('Send what the tape says, such as "2.35".', { most: 100_000 }),
    reason: line('Say why it differs.', 400),
    on: pastDay(today).default(today),
  });

/** Goes back to the supplier, or to the client it belongs to. */
export const LeavesFields = (fields: StockFields, unit: QuantityUnit, today: string) =>
  z.strictObject({
    quantity: fields.quantity(unit, 'How much goes back?'),
    reason: line('Say why, or to whom it was handed.', 400),
    on: pastDay(today).default(today),
  });

/** A lot's remarks as a form's fields. */
export const typedRemarks = (lot: Lot, locale: string): Record<string, string> => ({
  width: lot.width.shown,
  dyeLot: lot.dyeLot,
  flaws: lot.flaws,
  age: lot.age,
  believedAge: lot.believedAge,
  provenance: lot.provenance,
  replacementUnitCost: lot.replacementUnitCost
    ? numeralText(lot.replacementUnitCost, decimalSignOf(locale))
    : '',
  chargeAt: lot.chargeAt,
  chargeReason: lot.chargeReason,
  smell: lot.smell,
  shrinkTest: lot.shrinkTest,
});
