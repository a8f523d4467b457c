import type { CalendarDate, Instant } from '../kernel/calendar-date.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import type { Money } from '../kernel/money.js';

/**
 * What money out that is not cloth is for, and where its cost belongs: `overhead` is never one garment's, `direct` always
 * is, `either` is a garment's when one is named and overhead otherwise.
 */
export const MONEY_OUT_KINDS = {
  rent: { words: 'rent and rates', belongs: 'overhead' },
  power: { words: 'power, heat and light', belongs: 'overhead' },
  tools: { words: 'needles and small tools', belongs: 'overhead' },
  insurance: { words: 'insurance', belongs: 'overhead' },
  courier: { words: 'courier and post', belongs: 'either' },
  fares: { words: 'fares', belongs: 'either' },
  outworker: { words: 'outworker', belongs: 'direct' },
  other: { words: 'other', belongs: 'either' },
} as const satisfies Record<
  string,
  { readonly words: string; readonly belongs: 'overhead' | 'direct' | 'either' }
>;
export type MoneyOutKind = keyof typeof MONEY_OUT_KINDS;
export const MONEY_OUT_KIND_NAMES = Object.keys(MONEY_OUT_KINDS) as [MoneyOutKind, ...MoneyOutKind[]];

/** A bill or receipt that is not cloth. It is added, never changed; a wrong one is reversed by another below nought. */
export type MoneyOut = {
  readonly id: string;
  readonly kind: MoneyOutKind;
  readonly on: CalendarDate;
  /** What it costs: without the tax that comes back. Below nought only in a reversal. */
  readonly amount: Money;
  /** Tax that comes back, so that it is no cost. */
  readonly tax: Money;
  readonly payee: string;
  readonly paperNumber: string;
  readonly what: string;
  /** The garment it is a direct expense of; none for overhead. */
  readonly commissionId: string | undefined;
  readonly garmentId: string | undefined;
  readonly garmentName: string;
  /** The outwork it pays. */
  readonly ticketId: string | undefined;
  /** The entry this one reverses. */
  readonly of: string | undefined;
  readonly reason: string;
  readonly writtenAt: Instant;
};

/** What is to be paid: the cost and the tax that comes back. */
export const toPay = ({ amount, tax }: Pick<MoneyOut, 'amount' | 'tax'>): Money => amount.plus(tax);

/**
 * Money out as somebody says it, checked: something was spent, on a day that has come, and it belongs where its kind says.
 *
 * @param today the studio's day
 * @returns the same words
 * @throws Invalid per field
 * @see test/domain/money-out/money-out.test.ts
 */
export const checkMoneyOut = <
  T extends Pick<MoneyOut, 'kind' | 'on' | 'amount' | 'tax' | 'garmentId'> & {
    readonly paidOn?: CalendarDate | undefined;
  },
>(
  said: T,
  today: CalendarDate,
): T => {
  const troubles: FieldTrouble[] = [];
  const { words, belongs } = MONEY_OUT_KINDS[said.kind];
  if (said.amount.minor <= 0) troubles.push({ field: 'amount', text: 'Write an amount above nought.' });
  if (said.tax.isNegative()) troubles.push({ field: 'tax', text: 'Tax cannot be less than nought.' });
  if (said.on > today) troubles.push({ field: 'on', text: 'This day is still to come.' });
  if (said.paidOn && said.paidOn > today)
    troubles.push({ field: 'paidOn', text: 'This day is still to come. Leave it empty until it is paid.' });
  if (belongs === 'overhead' && said.garmentId)
    troubles.push({
      field: 'garment',
      text: `What goes into ${words} belongs to no one garment. Leave it empty.`,
    });
  if (belongs === 'direct' && !said.garmentId)
    troubles.push({ field: 'garment', text: 'Say which garment the outworker worked on.' });
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This cannot be kept.', troubles);
  return said;
};

/** Is it overhead? What names a garment is that garment's own expense. */
export const isOverhead = ({ garmentId }: Pick<MoneyOut, 'garmentId'>): boolean => garmentId === undefined;

/** Sums of one kind within a span. */
export type KindTotal = {
  readonly kind: MoneyOutKind;
  readonly overhead: Money;
  readonly direct: Money;
  readonly tax: Money;
  readonly count: number;
};

/**
 * Money out by kind: Σ amounts, those of no garment and those of garments apart. A reversal takes back what it reverses,
 * on the day it carries.
 *
 * @param entries of one currency, reversals included
 * @returns kinds with entries, in the house's order; `count` leaves out reversals and what they reversed
 * @see test/domain/money-out/money-out.test.ts
 */
export const totalsByKind = (entries: readonly MoneyOut[]): KindTotal[] => {
  const reversed = new Set(entries.flatMap(({ of }) => of ?? []));
  return MONEY_OUT_KIND_NAMES.flatMap((kind) => {
    const own = entries.filter((entry) => entry.kind === kind);
    const [first] = own;
    if (!first) return [];
    const sum = (of: readonly MoneyOut[], what: 'amount' | 'tax'): Money =>
      of.reduce((total, entry) => total.plus(entry[what]), first.amount.minus(first.amount));
    return [
      {
        kind,
        overhead: sum(own.filter(isOverhead), 'amount'),
        direct: sum(
          own.filter((entry) => !isOverhead(entry)),
          'amount',
        ),
        tax: sum(own, 'tax'),
        count: own.filter(({ id, of }) => !of && !reversed.has(id)).length,
      },
    ];
  });
};
