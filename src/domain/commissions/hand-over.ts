import { Decimal } from '../kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import type { Money } from '../kernel/money.js';

/** What goes with a garment when it is handed over. */
export type HandOver = {
  /** Pieces of cloth, in words. */
  readonly remnants: string;
  /** Buttons, thread. */
  readonly spares: string;
  /** How to care for it, in words. */
  readonly care: string;
  readonly receivedBy: string;
};

/** @throws Invalid when nobody received it, or something is too long */
export const checkHandOver = (said: HandOver): HandOver => {
  const troubles: FieldTrouble[] = [];
  if (said.receivedBy.trim() === '') troubles.push({ field: 'receivedBy', text: 'Who received it?' });
  for (const field of ['remnants', 'spares', 'care'] as const)
    if (said[field].length > 2000) troubles.push({ field, text: 'At most 2000 characters.' });
  if (troubles.length > 0) throw new Invalid(troubles[0]!.text, troubles);
  return said;
};

/** What a cancelled garment has come to, as figures. */
export type CancelledFigures = {
  readonly minutes: Decimal;
  readonly materials: Money;
  /** Labour, machine and overhead. */
  readonly time: Money;
  readonly expenses: Money;
  readonly cost: Money;
};

/** A percentage that the terms name, and what it is of the agreed price. */
export type TermsFigure = {
  /** The sentence it stands in. */
  readonly sentence: string;
  /** Per cent. */
  readonly percent: Decimal;
  readonly ofPrice: Money;
};

const PERCENT = /(\d{1,3}(?:[.,]\d{1,3})?)\s?(?:%|per cent|percent)/gi;

/**
 * The percentages that stand in terms, each with what it comes to of a price: figures to look at beside each other, no
 * proposal of what is owed.
 *
 * @param terms one a line
 * @param price the agreed price before tax
 * @returns in the order of the terms; those above 100 % are left out; rounded half away from zero
 * @see design 4-experience.md, "Cautions the program carries"; test/domain/commissions/hand-over.test.ts
 */
export const percentagesIn = (terms: readonly string[], price: Money): TermsFigure[] =>
  terms.flatMap((sentence) =>
    [...sentence.matchAll(PERCENT)].flatMap(([, figures = '']) => {
      const percent = new Decimal(figures.replace(',', '.'));
      return percent.gt(100) ? [] : [{ sentence, percent, ofPrice: price.timesRounded(percent.div(100)) }];
    }),
  );
