import type { GarmentSum } from '../../../domain/commissions/garment-sum.js';
import type { AddedTime, MaterialLine, OperationLine, PoolLine } from '../../../domain/costing/cost-lines.js';
import type { PricingChoices, StudioTax } from '../../../domain/house/studio.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import { Money } from '../../../domain/kernel/money.js';
import { MODE_WORDS } from '../../../domain/making/mode.js';
import type { PriceStep } from '../../../domain/pricing/price-terms.js';
import { amountInWords } from '../../../web/words/amounts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { shareInWords } from '../../../web/words/shares.js';

/** A line of a cost sheet as the figure-sum component takes it. */
export type SumLine = {
  readonly label: string;
  readonly figure: string;
  readonly note?: string;
  readonly kind?: 'total' | 'final';
  readonly working?: string;
  readonly parts?: readonly SumLine[];
};

export type SumManner = { readonly locale: string; readonly currency: string };

export const hoursInWords = (minutes: Decimal): string => minutesInWords(wholeMinutes(minutes));

/** The cost sheet, each line opening to the entries behind it. */
export const costLines = (sum: GarmentSum, { locale, currency }: SumManner): SumLine[] => {
  const { costSheet: sheet, keptBack } = sum.answer;
  const money = (amount: Money): string => amountInWords(amount, locale);
  const rate = (perHour: Decimal): string => money(Money.rounded(perHour, currency));
  const material = (line: MaterialLine): SumLine => ({
    label: line.name,
    figure: money(line.cost),
    working: `${line.quantity.toFixed()} × ${line.unitCost.toFixed()}${line.quantity.eq(line.netQuantity) ? '' : `, waste included (${line.netQuantity.toFixed()} without)`}`,
  });
  const labour = (line: OperationLine): SumLine => ({
    label: line.name,
    figure: money(line.labour),
    note: MODE_WORDS[line.mode as keyof typeof MODE_WORDS] ?? line.mode,
    working: `${hoursInWords(line.minutes)} at ${rate(line.perHour)} an hour`,
  });
  const machine = (line: OperationLine): SumLine => ({
    label: line.name,
    figure: money(line.machine),
    working: `${hoursInWords(line.minutes)} of machine time`,
  });
  const pool = (line: PoolLine): SumLine => ({
    label: line.name,
    figure: money(line.amount),
    working: poolWorking(line, rate),
  });
  const added = (time: AddedTime): SumLine[] => [
    { label: 'Labour', figure: money(time.labour) },
    { label: 'Machine', figure: money(time.machine) },
    { label: 'Overhead', figure: money(time.overhead) },
  ];
  const withMachine = sheet.parts.operations.filter((line) => !line.machine.isZero());
  return [
    opened('Materials', money(sheet.materials), sheet.parts.materials.map(material)),
    opened(
      'Labour',
      money(sheet.labour),
      sheet.parts.operations.map(labour),
      hoursInWords(sheet.minutes.total),
    ),
    ...(withMachine.length > 0 ? [opened('Machine', money(sheet.machine), withMachine.map(machine))] : []),
    ...(sheet.parts.pools.length > 0
      ? [opened('Overhead', money(sheet.overhead), sheet.parts.pools.map(pool))]
      : []),
    ...(sheet.parts.expenses.length > 0
      ? [
          opened(
            'Direct expenses',
            money(sheet.expenses),
            sheet.parts.expenses.map((line) => ({ label: line.name, figure: money(line.amount) })),
          ),
        ]
      : []),
    ...(sheet.mending.money.isZero()
      ? []
      : [
          opened(
            'Mending',
            money(sheet.mending.money),
            added(sheet.mending),
            hoursInWords(sheet.mending.minutes),
          ),
        ]),
    opened(
      'Kept back for the unexpected',
      money(keptBack.money),
      added(sheet.keptBack),
      hoursInWords(keptBack.minutes),
    ),
    { label: 'Cost', figure: money(sheet.cost), kind: 'total' },
  ];
};

const poolWorking = (line: PoolLine, rate: (perHour: Decimal) => string): string =>
  line.base === 'labour-cost' || line.base === 'material-cost'
    ? `${shareInWords(line.rate, 1)} of ${line.baseQuantity.toFixed(2)} ${line.base === 'labour-cost' ? 'labour' : 'materials'}`
    : `${line.baseQuantity.toFixed(2)} h at ${rate(line.rate)} an hour`;

const opened = (label: string, figure: string, parts: readonly SumLine[], note?: string): SumLine => ({
  label,
  figure,
  ...(note ? { note } : {}),
  ...(parts.length > 0 ? { parts } : {}),
});

/** From cost to price, step by step, and the tax on it. */
export const priceLines = (
  sum: GarmentSum,
  pricing: PricingChoices,
  tax: StudioTax,
  { locale }: SumManner,
): SumLine[] => {
  const { price } = sum.answer;
  const money = (amount: Money): string => amountInWords(amount, locale);
  const named: Record<Exclude<PriceStep['kind'], 'cost'>, string> = {
    'stash-uplift': 'Stash at the value it is charged at',
    margin:
      pricing.profitBasis === 'margin'
        ? `Profit, ${shareInWords(pricing.profitShare, 1)} of the price`
        : `Profit, ${shareInWords(pricing.profitShare, 1)} on cost`,
    handling: `Handling of materials, ${shareInWords(pricing.handlingShare, 1)}`,
    rush: 'Rush',
    minimum: 'Up to the minimum charge',
    discount: 'Discount',
    rounding: 'Rounding up',
    'set-by-hand': 'From the sum to the price you set',
  };
  const steps = price.steps.flatMap((step) =>
    step.kind === 'cost' || step.amount.isZero()
      ? []
      : [{ label: named[step.kind], figure: money(step.amount) }],
  );
  return [
    ...steps,
    { label: 'Price before tax', figure: money(price.net), kind: 'final' },
    ...(tax.rate.isZero() ? [] : [{ label: `Tax, ${tax.rate.toFixed()} %`, figure: money(price.tax) }]),
    ...(tax.rate.isZero()
      ? []
      : [{ label: 'Price with tax', figure: money(price.gross), kind: 'total' as const }]),
  ];
};
