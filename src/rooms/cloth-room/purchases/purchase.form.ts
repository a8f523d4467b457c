import { z } from 'zod';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { AGES } from '../../../domain/stock/lot.js';
import type { Material, TypedLength } from '../../../domain/stock/material.js';
import {
  date,
  line,
  oneOf,
  optionalDate,
  optionalLine,
  optionalLines,
  yesNo,
} from '../../../web/fields/fields.js';
import { closedUp } from '../../../web/forms/closed-up.js';
import { parse } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { type StockFields, sentFields, typedFields } from '../stock-fields.js';

/** The most lines on one supplier's paper. */
export const MOST_LINES = 60;
export const LINE_FIELDS = ['materialId', 'quantity', 'unitPrice', 'width', 'dyeLot', 'flaws', 'lineId'];

/** One line of a purchase as it was said. */
export type LineSaid = {
  readonly materialId: string;
  readonly quantity: Decimal;
  readonly unitPrice: Decimal;
  readonly width: TypedLength;
  readonly dyeLot: string;
  readonly flaws: string;
  readonly age: (typeof AGES)[number];
  /** The planned line it is for. */
  readonly lineId: string | undefined;
};

export type PurchaseSaid = {
  readonly supplierId: string;
  readonly boughtOn: CalendarDate;
  readonly paperNumber: string;
  readonly orderNumber: string;
  readonly freight: Money;
  readonly duty: Money;
  readonly tax: Money;
  readonly taxRecoverable: boolean;
  readonly sharedBy: 'value' | 'quantity';
  readonly notes: string;
  /** None while it is owed. */
  readonly paidOn?: CalendarDate | undefined;
  readonly lines: readonly LineSaid[];
};

const LineFields = (fields: StockFields, materials: ReadonlyMap<string, Material>) =>
  z
    .strictObject({
      materialId: line('Choose the material.', 40),
      quantity: z.union([z.string(), z.number()]).default(''),
      unitPrice: fields.kit.number('What does one cost? Write 0 for a gift.', { most: 10_000_000 }),
      width: fields.length(),
      dyeLot: optionalLine(100),
      flaws: optionalLine(400),
      age: oneOf(AGES).default('new'),
      lineId: optionalLine(40).transform((id) => id || undefined),
    })
    .transform((said, ctx): LineSaid => {
      const material = materials.get(said.materialId);
      if (!material) {
        ctx.addIssue({ code: 'custom', path: ['materialId'], message: 'There is no such material.' });
        return z.NEVER;
      }
      const read = fields.quantity(material.unit, 'How much of it came?').safeParse(said.quantity);
      if (!read.success) {
        const [issue] = read.error.issues;
        ctx.addIssue({
          code: 'custom',
          path: ['quantity'],
          message: issue?.message ?? 'How much of it came?',
        });
        return z.NEVER;
      }
      return { ...said, quantity: read.data };
    });

const PurchaseFields = (fields: StockFields, materials: ReadonlyMap<string, Material>) => {
  const orNothing = () =>
    fields.kit.optionalMoney().transform((said) => said ?? Money.zero(fields.kit.currency));
  return z.strictObject({
    supplierId: line('Choose the supplier.', 40),
    boughtOn: date('When did it come?'),
    paperNumber: optionalLine(100),
    orderNumber: optionalLine(100),
    freight: orNothing(),
    duty: orNothing(),
    tax: orNothing(),
    taxRecoverable: yesNo(),
    sharedBy: oneOf(['value', 'quantity']).default('value'),
    notes: optionalLines(4000),
    paidOn: optionalDate(),
    lines: z
      .array(LineFields(fields, materials), 'Give a list of lines.')
      .min(1, 'Write down at least one line.')
      .max(MOST_LINES, `At most ${MOST_LINES} lines on one paper.`),
  });
};

/** The form with its lines closed up. */
export const tidyLines = (typed: Typed): Typed => closedUp(typed, 'lines', LINE_FIELDS).typed;

const CARRIED = new Set(['once', 'version', 'commit']);

/** Reads the form; lines left empty are no lines. @throws Invalid naming every field at fault */
export const readPurchase = (
  typed: Typed,
  identity: StudioIdentity,
  materials: ReadonlyMap<string, Material>,
): PurchaseSaid => {
  const { rows, rest } = closedUp(typed, 'lines', LINE_FIELDS);
  if (rows.length === 0) throw Invalid.field('lines.0.materialId', 'Write down at least one line.');
  const top = Object.fromEntries(
    Object.entries(rest).filter(([name]) => !CARRIED.has(name) && !name.startsWith('confirm.')),
  );
  return parse(PurchaseFields(typedFields(identity), materials), { ...top, lines: rows });
};

/** Reads what a program sends. @throws Invalid naming every field at fault */
export const readSentPurchase = (
  body: unknown,
  identity: StudioIdentity,
  materials: ReadonlyMap<string, Material>,
): PurchaseSaid => parse(PurchaseFields(sentFields(identity), materials), body);
