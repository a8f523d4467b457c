import { z } from 'zod';
import type { Decimal } from '../../../../domain/kernel/decimal.js';
import { QUANTITY_UNITS, type QuantityUnit } from '../../../../domain/kernel/quantity.js';
import { CREDITS, DEDUCTS, type InvoiceChoices } from '../../../../domain/papers/invoice/invoice-choices.js';
import { TAX_CATEGORIES, type TaxCategory } from '../../../../domain/papers/tax/category.js';
import { line, oneOf, optionalDate, optionalLine, optionalLines } from '../../../../web/fields/fields.js';
import { type FieldKit, sentKit, typedKit } from '../../../../web/fields/kits.js';
import { closedUp, rowsTyped } from '../../../../web/forms/closed-up.js';
import { parse } from '../../../../web/forms/parse.js';
import type { Typed } from '../../../../web/forms/typed.js';
import { type MoneyManner, moneyForField } from '../../../../web/words/amounts.js';
import { decimalSignOf, numeralText } from '../../../../web/words/numeral.js';
import { READY } from './begin-invoice.js';

/** A paper holds at most so many lines: a ledger of a year still fits, a mistake does not. */
const MOST_LINES = 1000;
const LARGEST = 999_999_999_999;

const UNITS = Object.keys(QUANTITY_UNITS) as [QuantityUnit, ...QuantityUnit[]];
const CATEGORIES = Object.keys(TAX_CATEGORIES) as [TaxCategory, ...TaxCategory[]];

/** How a figure that is no money is written: by people as money, by programs with as many decimals as they like. */
type Prices = (missing: string) => z.ZodType<Decimal>;

/** What may be changed of a draft: one schema for the form and for programs, which differ in how figures are written. */
const Edits = (kit: FieldKit, price: Prices) =>
  z.strictObject({
    lines: z
      .array(
        z.strictObject({
          ref: optionalLine(200),
          garment: optionalLine(200),
          name: line('Say what is asked for.', 400),
          description: optionalLines(5000),
          quantity: kit.number('Give the quantity.', { least: -1_000_000, most: 1_000_000 }),
          unit: oneOf(UNITS, 'Choose a unit.').default('piece'),
          price: price('Give the price; nought makes it a courtesy.'),
          category: z.union([z.literal(''), oneOf(CATEGORIES, 'Choose a tax category.')]).default(''),
          rate: z.union([z.literal('').transform(() => undefined), kit.number('', { most: 100 })]).optional(),
        }),
      )
      .max(MOST_LINES, `At most ${MOST_LINES} lines.`)
      .default([]),
    discount: kit.optionalMoney(),
    discountReason: optionalLine(200),
    deducts: oneOf(DEDUCTS, 'Say what comes off.').default('nothing'),
    prepaid: kit.optionalMoney(),
    due: optionalDate(),
    supplied: optionalDate(),
    orderNumber: optionalLine(200),
    terms: optionalLines(4000),
    note: optionalLines(4000),
    credits: oneOf(CREDITS, 'Say how much is given back.').default('whole'),
    creditLines: z.array(z.string().max(12)).max(MOST_LINES, `At most ${MOST_LINES} lines.`).default([]),
    creditAmount: kit.optionalMoney(),
  });

/** What somebody changed of a draft. */
export type InvoiceEdits = z.output<ReturnType<typeof Edits>>;

export const EditsSent = (currency: string) => {
  const kit = sentKit(currency);
  return Edits(kit, (missing) => kit.number(missing, { most: LARGEST }));
};

const TELLING = ['name', 'price', 'description'];

/** The lines closed up, so that one left blank leaves no gap. */
export const tidyInvoice = (typed: Typed): Typed => closedUp(typed, 'lines', TELLING).typed;

/** Reads what was typed. @throws Invalid naming the fields at fault */
export const readEdits = (typed: Typed, manner: MoneyManner): InvoiceEdits => {
  const lines = closedUp(typed, 'lines', TELLING);
  const kit = typedKit(manner);
  const rest = Object.fromEntries(
    Object.entries(lines.rest).filter(
      ([name]) =>
        !['once', 'version', 'then'].includes(name) &&
        !name.startsWith('confirm.') &&
        !name.startsWith('creditLines.'),
    ),
  );
  const creditLines = Object.entries(typed)
    .filter(([name, value]) => name.startsWith('creditLines.') && value === 'yes')
    .map(([name]) => name.slice('creditLines.'.length));
  const price: Prices = (missing) => kit.money(missing).transform((money) => money.toDecimal());
  return parse(Edits(kit, price), { ...rest, lines: lines.rows, creditLines });
};

/** What was chosen as the form's fields. */
export const typedInvoice = (choices: InvoiceChoices, locale: string): Record<string, string> => {
  const sign = decimalSignOf(locale);
  const money = (amount: InvoiceChoices['discount'] | undefined): string =>
    amount === undefined || amount.isZero() ? '' : moneyForField(amount, locale);
  return {
    ...rowsTyped(
      'lines',
      choices.lines.map(({ ref, garment, name, description, quantity, unit, price, category, rate }) => ({
        ref,
        garment,
        name,
        description,
        quantity: numeralText(quantity, sign),
        unit,
        price: numeralText(price, sign, price.decimalPlaces() <= 2 ? 2 : undefined),
        category,
        rate: rate?.toFixed() ?? '',
      })),
    ),
    discount: money(choices.discount),
    discountReason: choices.discountReason,
    deducts: choices.deducts,
    prepaid: money(choices.prepaid),
    due: choices.due ?? '',
    supplied: choices.supplied ?? '',
    orderNumber: choices.orderNumber,
    terms: choices.terms,
    note: choices.note,
    credits: choices.credits,
    ...Object.fromEntries(choices.creditLines.map((number) => [`creditLines.${number}`, 'yes'])),
    creditAmount: money(choices.creditAmount),
  };
};

/** What is to be laid ready, as programs ask for it. */
export const ReadySent = z.strictObject({
  what: oneOf(READY, 'Say what to lay ready: deposit, part, stage or final.'),
  garments: z.array(z.string()).max(12, 'At most 12 garments.').default([]),
  share: sentKit('EUR').share('Send the share of a stage, such as "0.3".').optional(),
});

/** The same as the form asks for it: a tick for each garment. */
export const readReady = (typed: Typed): z.output<typeof ReadySent> => {
  const { what, share } = parse(
    z.object({
      what: oneOf(READY, 'Choose what to lay ready.'),
      share: z
        .union([
          z.literal('').transform(() => undefined),
          typedKit({ currency: 'EUR', locale: 'en' }).share('Give the share as a percentage.'),
        ])
        .optional(),
    }),
    typed,
  );
  return {
    what,
    share,
    garments: Object.entries(typed)
      .filter(([name, value]) => name.startsWith('garments.') && value === 'yes')
      .map(([name]) => name.slice('garments.'.length)),
  };
};
