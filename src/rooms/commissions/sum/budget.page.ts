import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import { priceInput } from '../../../domain/commissions/garment-sum.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { MAKE_WORDS, MAKES } from '../../../domain/making/mode.js';
import { startingPlan } from '../../../domain/making/starting-plan.js';
import { makeWithinBudget, type WithinBudget } from '../../../domain/pricing/within-budget.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords, readMoney } from '../../../web/words/amounts.js';
import { shareInWords } from '../../../web/words/shares.js';
import { hoursInWords } from './sum-lines.js';
import { type Pricing, pricingOf } from './sum-of.js';

/** What a client's budget allows for one garment: hours, and which makes fit. */
export const budgetPage = async (
  reading: Reading,
  clock: Clock,
  garmentId: string,
  typed: string,
): Promise<PageWords> => {
  const planned = await garmentBook.planned(reading, garmentId);
  const pricing = await pricingOf(reading, clock, planned.garment.commissionId);
  const { locale, currency } = pricing.studio.identity;
  const back = `/commissions/${planned.garment.commissionId}/garments/${garmentId}`;
  const frame = {
    title: `What a budget allows: ${planned.garment.name}`,
    room: 'commissions' as const,
    crumbs: [
      { text: pricing.commission.number, href: `/commissions/${pricing.commission.id}` },
      { text: planned.garment.name, href: back },
    ],
    action: `${back}/budget`,
    typed: typed.slice(0, 60),
  };
  const read = readMoney(typed, { currency, locale });
  if (read.kind === 'empty') return { ...frame, trouble: '', answered: false };
  if (read.kind !== 'ok') return { ...frame, trouble: read.sentence, answered: false };
  // What a client wants to spend is what they pay.
  const budgetIs = pricing.studio.tax.rate.isZero() ? 'net' : 'gross';
  try {
    const allowed = await within(reading, pricing, planned, read.value, budgetIs);
    if (!allowed)
      return {
        ...frame,
        trouble: 'There is no price before the studio knows what an hour costs: see Rates.',
        answered: false,
      };
    return {
      ...frame,
      trouble: '',
      answered: true,
      ...answerInWords(allowed, moneyInWords(read.value, locale), budgetIs, locale),
    };
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    return { ...frame, trouble: error.message, answered: false };
  }
};

const within = async (
  reading: Reading,
  pricing: Pricing,
  planned: PlannedGarment,
  budget: Parameters<typeof makeWithinBudget>[1],
  budgetIs: 'net' | 'gross',
): Promise<WithinBudget | undefined> => {
  // A price set by hand says nothing about what the hours cost, so it is left aside here.
  const plain: PlannedGarment = { ...planned, garment: { ...planned.garment, ownPrice: undefined } };
  const basis = await pricing.basisOf(plain);
  if (!basis) return undefined;
  const type = await makingBook.type(reading, plain.garment.typeId);
  const known = await makingBook.operations(reading, type.id);
  const makes = type.isMenu
    ? []
    : MAKES.map((make) => {
        const { plan } = startingPlan(type, make, known, () => type.id);
        return {
          name: MAKE_WORDS[make],
          operations: priceInput({ planned: { ...plain, plan }, ...basis }).operations ?? [],
        };
      });
  return makeWithinBudget(priceInput({ planned: plain, ...basis }), budget, budgetIs, makes);
};

const answerInWords = (
  allowed: WithinBudget,
  budget: string,
  budgetIs: 'net' | 'gross',
  locale: string,
): object => {
  const tax = budgetIs === 'gross' ? ' with tax' : '';
  const sentence =
    allowed.answer === null
      ? `${budget}${tax} does not even pay the materials and expenses.`
      : allowed.minutes === null
        ? 'Time costs nothing at these rates, so any budget allows any hours.'
        : `${budget}${tax} allows ${hoursInWords(allowed.answer.minutes.priced)} of work${
            allowed.shareOfPlan
              ? `: ${shareInWords(allowed.shareOfPlan)} of the plan as it stands (${hoursInWords(allowed.planned)})`
              : ''
          }.`;
  return {
    sentence,
    best: allowed.best
      ? `The most hand work it allows, with the usual plan of this type: ${allowed.best.name}.`
      : '',
    makes: {
      caption: 'The usual plan of this type, by make',
      columns: [
        { text: 'Make' },
        { text: 'Hours', figure: true },
        { text: 'Price', figure: true },
        { text: 'Left of the budget', figure: true },
      ],
      rows: allowed.makes.map((make) => ({
        cells: [
          { text: make.name, note: make.fits ? 'fits' : 'does not fit' },
          { text: hoursInWords(make.answer.minutes.priced), figure: true },
          { text: amountInWords(make.answer.price[budgetIs], locale), figure: true },
          { text: amountInWords(make.left, locale), figure: true },
        ],
      })),
    },
    anyMakes: allowed.makes.length > 0,
  };
};
