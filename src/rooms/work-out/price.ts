import type { z } from 'zod';
import type { CostedOperation } from '../../domain/costing/cost-lines.js';
import { operationMinutes } from '../../domain/costing/operation-minutes.js';
import { estimateHours } from '../../domain/estimating/forecast/hours.js';
import type { CurrencyCode } from '../../domain/kernel/currency.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import type { PriceAnswer, PriceInput } from '../../domain/pricing/price-terms.js';
import { workOutPrice } from '../../domain/pricing/work-out-price.js';
import { amountsIn } from '../../web/api/amounts.js';
import { PriceQuestion } from './price.schema.js';
import { minutesOut, question, shareText } from './question.js';

type Asked = z.output<typeof PriceQuestion>;

/** Estimates leave their binary fractions here. */
const THOUSANDTH = 3;
const decimal = (minutes: number): Decimal => new Decimal(minutes.toFixed(THOUSANDTH));

/** Operations at even chance and at the certainty asked for, and the chance of taking longer, by the starting values. */
const atCertainty = (asked: Asked): Pick<PriceInput, 'operations' | 'chanceOfLoss'> => {
  const operations: readonly CostedOperation[] = asked.operations ?? [];
  if (asked.certainty === undefined) return { operations };
  const forecast = estimateHours({
    garment: {
      garmentType: 'this garment',
      operations: operations.map((each) => ({
        kind: each.name,
        mode: each.mode,
        plannedMinutes: operationMinutes(each).toNumber(),
      })),
    },
    overruns: asked.overruns ?? 'unknown',
  });
  const even = forecast.splitAt(0.5).operations;
  const priced = forecast.splitAt(asked.certainty).operations;
  return {
    operations: operations.map(({ name, mode, perHour }, index) => ({
      name,
      mode,
      perHour,
      minutes: decimal(even[index] ?? 0),
      pricedMinutes: decimal(priced[index] ?? 0),
    })),
    chanceOfLoss: (minutes) => forecast.chanceOver(minutes.toNumber()),
  };
};

const inputOf = (asked: Asked, currency: CurrencyCode): PriceInput => {
  const amounts = amountsIn(currency);
  const { certainty: _certainty, overruns: _overruns, pricing, expenses, ...plain } = asked;
  const input = {
    ...plain,
    currency,
    expenses: expenses?.map((each, index) => ({
      name: each.name,
      amount: amounts.money(each.amount, `expenses.${index}.amount`),
    })),
    pricing: {
      ...pricing,
      minimumCharge: amounts.maybe(pricing?.minimumCharge, 'pricing.minimumCharge'),
      discount: amounts.maybe(pricing?.discount, 'pricing.discount'),
      roundTo: amounts.maybe(pricing?.roundTo, 'pricing.roundTo'),
    },
  };
  amounts.mustFit();
  return { ...input, ...atCertainty(asked) };
};

const answerOf = ({ minutes, costSheet, price, keptBack, chanceOfLoss }: PriceAnswer) => ({
  minutes: {
    total: minutesOut(minutes.total),
    byMode: Object.fromEntries([...minutes.byMode].map(([mode, each]) => [mode, minutesOut(each)])),
    priced: minutesOut(minutes.priced),
  },
  costSheet: {
    materials: costSheet.materials,
    labour: costSheet.labour,
    machine: costSheet.machine,
    overhead: costSheet.overhead,
    overheadByPool: Object.fromEntries(costSheet.overheadByPool),
    expenses: costSheet.expenses,
    mending: { minutes: minutesOut(costSheet.mending.minutes), money: costSheet.mending.money },
    cost: costSheet.cost,
  },
  price: {
    net: price.net,
    tax: price.tax,
    gross: price.gross,
    profit: price.profit,
    margin: shareText(price.margin),
    markup: shareText(price.markup),
    earnedPerHour: price.earnedPerHour,
    lowestThatPaysTheWage: price.lowestThatPaysTheWage,
    stashUplift: price.stashUplift,
    handling: price.handling,
    rush: price.rush,
    discount: price.discount,
    minimumApplied: price.minimumApplied,
    steps: price.steps,
    breakEvenMinutes: price.breakEvenMinutes && minutesOut(price.breakEvenMinutes),
  },
  keptBack: { minutes: minutesOut(keptBack.minutes), money: keptBack.money },
  chanceOfLoss,
});

export const price = question({
  schema: PriceQuestion,
  summary: 'What a garment costs and what to charge for it',
  examples: {
    'a jacket with stash buttons': {
      currency: 'EUR',
      labour: { perHour: '22.69', perHourByMode: { fitting: '25.00' } },
      machinePerHour: '3.00',
      overhead: [
        { name: 'workroom', base: 'productive-hours', rate: '5.38' },
        { name: 'finishing', base: 'labour-cost', rate: '0.125' },
      ],
      operations: [
        { name: 'pad stitch lapels', mode: 'hand', minutes: 90 },
        { name: 'buttonholes', mode: 'hand', fixedMinutes: 10, quantity: '11', minutesPerUnit: '25' },
      ],
      materials: [
        { name: 'tweed', quantity: '5.20', unitCost: '46.00', wasteShare: '0', handling: true },
        {
          name: 'horn buttons',
          quantity: '11',
          unitCost: '0',
          replacementUnitCost: '3.20',
          chargeAt: 'replacement',
        },
      ],
      expenses: [{ name: 'courier', amount: '12.00' }],
      pricing: {
        margin: '0.10',
        handlingShare: '0.15',
        minimumCharge: '18.00',
        rushShare: '0',
        rushOn: 'labour',
        discount: '0.00',
        roundTo: '0.01',
      },
      tax: { category: 'S', rate: '21' },
    },
    'a hem at the minimum charge': {
      currency: 'EUR',
      labour: { perHour: '31.50' },
      operations: [{ name: 'hem', mode: 'hand', minutes: 24 }],
      pricing: { minimumCharge: '18.00' },
    },
    'trousers at 4 in 5': {
      currency: 'EUR',
      labour: { perHour: 24 },
      operations: [
        { name: 'make the fly', mode: 'machine', minutes: 75 },
        { name: 'waistband by hand', mode: 'hand', minutes: 120 },
      ],
      certainty: 0.8,
      pricing: { markup: 0.25, roundTo: 5 },
    },
  },
  answer: (asked, currency) => answerOf(workOutPrice(inputOf(asked, asked.currency ?? currency))),
});
