import { z } from 'zod';
import { QUOTE_KINDS } from '../../../../domain/house/studio.js';
import { type DraftChoices, QUOTE_DEPOSITS } from '../../../../domain/papers/quote/draft-choices.js';
import {
  line,
  oneOf,
  optionalDate,
  optionalLine,
  optionalLines,
  whole,
  yesNo,
} from '../../../../web/fields/fields.js';
import { type FieldKit, sentKit, typedKit } from '../../../../web/fields/kits.js';
import { closedUp, rowsTyped } from '../../../../web/forms/closed-up.js';
import { parse } from '../../../../web/forms/parse.js';
import type { Typed } from '../../../../web/forms/typed.js';
import { type MoneyManner, moneyForField } from '../../../../web/words/amounts.js';
import { shareForField } from '../../../../web/words/shares.js';

const MOST_OPTIONS = 20;

const id = z
  .string()
  .optional()
  .transform((text) => (text === '' ? undefined : text));

/** What is chosen for a quote: one schema for the form and for programs, which differ in how figures are written. */
const Choices = (kit: FieldKit) =>
  z
    .strictObject({
      garments: z
        .array(
          z.strictObject({
            garmentId: z.string('Name the garment.'),
            included: yesNo(),
            fittings: z
              .union([z.literal('').transform(() => undefined), whole(0, 20, 'Give a number of fittings.')])
              .optional(),
          }),
        )
        .max(12, 'At most 12 garments.'),
      options: z
        .array(
          z.strictObject({
            text: line('Say what is offered.', 400),
            garmentId: id,
            price: kit.money('Give the price of what is offered.'),
            taken: yesNo(),
          }),
        )
        .max(MOST_OPTIONS, `At most ${MOST_OPTIONS} options.`)
        .default([]),
      kind: oneOf(QUOTE_KINDS, 'Say which it is: a fixed price, an estimate, or work by time.'),
      hourPrice: kit.optionalMoney(),
      validUntil: optionalDate(),
      opening: optionalLines(2000),
      exclusions: optionalLines(4000),
      clothWording: optionalLine(1000),
      terms: optionalLines(8000),
      depositRule: oneOf(QUOTE_DEPOSITS, 'Choose a rule for the deposit.'),
      depositShare: kit.share('Give the share as a percentage.'),
      depositAmount: kit.optionalMoney(),
      discountReason: optionalLine(200),
      showHours: yesNo(),
    })
    .refine(({ garments }) => garments.some(({ included }) => included), {
      path: ['garments.0.included'],
      message: 'Choose at least one garment.',
    })
    .refine(({ depositRule, depositAmount }) => depositRule !== 'amount' || depositAmount !== undefined, {
      path: ['depositAmount'],
      message: 'Give the sum of the deposit.',
    })
    .transform(
      (said): DraftChoices => ({
        ...said,
        garments: said.garments.map((one) => ({ ...one, fittings: one.fittings })),
        options: said.options.map((one) => ({ ...one, garmentId: one.garmentId })),
        hourPrice: said.hourPrice,
        validUntil: said.validUntil,
        depositAmount: said.depositAmount,
      }),
    );

export const ChoicesSent = (currency: string) => Choices(sentKit(currency));

/** The form's grids closed up, so that an option left blank leaves no gap. */
export const tidyDraft = (typed: Typed): Typed => closedUp(typed, 'options', ['text', 'price']).typed;

/** Reads what was typed. @throws Invalid naming the fields at fault */
export const readChoices = (typed: Typed, manner: MoneyManner): DraftChoices => {
  const garments = closedUp(typed, 'garments', ['garmentId']);
  const options = closedUp(garments.rest, 'options', ['text', 'price']);
  const rest = Object.fromEntries(
    Object.entries(options.rest).filter(
      ([name]) => !['once', 'version', 'then'].includes(name) && !name.startsWith('confirm.'),
    ),
  );
  return parse(Choices(typedKit(manner)), { ...rest, garments: garments.rows, options: options.rows });
};

/** What was chosen as the form's fields. */
export const typedChoices = (choices: DraftChoices, locale: string): Record<string, string> => ({
  ...rowsTyped(
    'garments',
    choices.garments.map(({ garmentId, included, fittings }) => ({
      garmentId,
      included: included ? 'yes' : '',
      fittings: fittings === undefined ? '' : String(fittings),
    })),
  ),
  ...rowsTyped(
    'options',
    choices.options.map(({ text, garmentId, price, taken }) => ({
      text,
      garmentId: garmentId ?? '',
      price: moneyForField(price, locale),
      taken: taken ? 'yes' : '',
    })),
  ),
  kind: choices.kind,
  hourPrice: choices.hourPrice ? moneyForField(choices.hourPrice, locale) : '',
  validUntil: choices.validUntil ?? '',
  opening: choices.opening,
  exclusions: choices.exclusions,
  clothWording: choices.clothWording,
  terms: choices.terms,
  depositRule: choices.depositRule,
  depositShare: shareForField(choices.depositShare),
  depositAmount: choices.depositAmount ? moneyForField(choices.depositAmount, locale) : '',
  discountReason: choices.discountReason,
  showHours: choices.showHours ? 'yes' : '',
});
