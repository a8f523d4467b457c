import { z } from 'zod';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import type { Material, TypedLength } from '../../../domain/stock/material.js';
import { date, line, oneOf, optionalLine, yesNo } from '../../../web/fields/fields.js';
import type { StockFields } from '../stock-fields.js';

const key = () => optionalLine(40).transform((id) => id || undefined);
const REASON = 'Give the reason in a few words.';

/** A day that is not still to come. */
export const pastDay = (today: CalendarDate) =>
  date('On which day?').refine((day) => day <= today, 'This day is still to come.');

/** Something taken off the shelf, as it was said. */
export type TakeSaid = {
  readonly kind: 'issue' | 'waste';
  readonly quantity: Decimal;
  readonly lot: string | undefined;
  readonly garment: string | undefined;
  readonly reason: string;
  readonly on: CalendarDate;
  readonly evenIfPromised: boolean;
};

/** Off the shelf: issued to a garment, or wasted. */
export const TakeFields = (fields: StockFields, { unit }: Material, today: CalendarDate) =>
  z
    .strictObject({
      kind: oneOf(['issue', 'waste'], 'Is it issued or wasted?').default('issue'),
      quantity: fields.quantity(unit, 'How much is taken?'),
      lot: key(),
      garment: key(),
      reason: optionalLine(400),
      on: pastDay(today).default(today),
      evenIfPromised: yesNo(),
    })
    .superRefine(({ kind, garment, reason }, ctx) => {
      if (kind === 'issue' && !garment)
        ctx.addIssue({ code: 'custom', path: ['garment'], message: 'Say which garment it is for.' });
      if (kind === 'waste' && !reason) ctx.addIssue({ code: 'custom', path: ['reason'], message: REASON });
    }) satisfies z.ZodType<TakeSaid>;

/** Part of an issue comes back. */
export const ReturnFields = (fields: StockFields, { unit }: Material, today: CalendarDate) =>
  z.strictObject({
    quantity: fields.quantity(unit, 'How much comes back?'),
    reason: optionalLine(400),
    on: pastDay(today).default(today),
  });

export type OffcutSaid = {
  readonly length: Decimal;
  readonly width: TypedLength;
  readonly flaws: string;
  readonly on: CalendarDate;
};

/** A piece left over from a garment goes back to the stash. */
export const OffcutFields = (fields: StockFields, { unit }: Material, today: CalendarDate) =>
  z.strictObject({
    length: fields.quantity(unit, 'How long is it?'),
    width: fields.length(),
    flaws: optionalLine(400),
    on: pastDay(today).default(today),
  }) satisfies z.ZodType<OffcutSaid>;

/** A movement put down wrongly. */
export const ReverseFields = (today: CalendarDate) =>
  z.strictObject({ reason: line(REASON, 400), on: pastDay(today).default(today) });
