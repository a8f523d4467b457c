import type { Decimal } from '../../kernel/decimal.js';
import type { Money } from '../../kernel/money.js';
import type { QuantityUnit } from '../../kernel/quantity.js';
import type { TaxCategory } from '../tax/category.js';
import { rateOf } from '../tax/tax-groups.js';
import type { GrossPolicy, PricesInclude, TaxedAmount, TaxQuestion } from '../tax/tax-question.js';
import { workOutTax } from '../tax/work-out-tax.js';
import { PAPER_KINDS, type Paper, type PaperHead } from './paper.js';

/** A line as a room knows it: words, quantity, price and tax, nothing worked out. */
export type DraftLine = {
  readonly name: string;
  readonly description?: string;
  readonly note?: string;
  readonly quantity: Decimal;
  readonly unit: QuantityUnit;
  readonly price: Decimal;
  readonly baseQuantity?: Decimal;
  readonly category: TaxCategory;
  readonly rate?: Decimal;
  readonly allowances?: readonly { readonly amount: Money; readonly reason: string }[];
  readonly charges?: readonly { readonly amount: Money; readonly reason: string }[];
};

export type DraftAmount = TaxedAmount & { readonly reason: string };

export type PaperDraft = {
  readonly head: PaperHead;
  readonly lines: readonly DraftLine[];
  readonly allowances?: readonly DraftAmount[];
  readonly charges?: readonly DraftAmount[];
  readonly spreadDiscount?: { readonly amount: Money; readonly reason: string };
  readonly prepaid?: Money;
  readonly rounding?: Money;
  readonly pricesInclude?: PricesInclude;
  readonly grossPolicy?: GrossPolicy;
  /** BT-120 by category: why no tax is charged. */
  readonly taxReasons?: Partial<Record<TaxCategory, string>>;
};

const questionOf = (draft: PaperDraft): TaxQuestion => ({
  currency: draft.head['BT-5'],
  lines: draft.lines.map((line) => ({
    quantity: line.quantity,
    price: line.price,
    baseQuantity: line.baseQuantity,
    category: line.category,
    rate: line.rate,
    allowances: line.allowances?.map((each) => each.amount),
    charges: line.charges?.map((each) => each.amount),
  })),
  allowances: draft.allowances,
  charges: draft.charges,
  spreadDiscount: draft.spreadDiscount?.amount,
  prepaid: draft.prepaid,
  rounding: draft.rounding,
  pricesInclude: draft.pricesInclude,
  grossPolicy: draft.grossPolicy,
});

/** BR-O-05 and kin: a paper states no rate where nothing is subject to tax. */
const statedRate = (category: TaxCategory, rate: Decimal | undefined): Decimal | undefined =>
  category === 'O' ? undefined : rate;

const CENT = 'carried by the total with tax';

/**
 * Makes a paper of its draft: every amount out of {@link workOutTax}, every word as it was written.
 *
 * @param draft amounts in the currency of `head['BT-5']`; prices net or with tax as `pricesInclude` says
 * @returns the paper, its lines numbered from 1, its prices always net
 * @throws Invalid with the path of the field that cannot be meant
 * @see EN 16931-1 semantic model; test/domain/papers/model.test.ts
 */
export const makePaper = (draft: PaperDraft): Paper => {
  const answer = workOutTax(questionOf(draft));
  const { lines, allowances, charges, groups, unreached, ...totals } = answer;
  return {
    ...draft.head,
    'BT-3': PAPER_KINDS[draft.head.kind].code,
    'BG-20': allowances.map((each, index) => ({
      'BT-92': each.amount,
      'BT-95': each.category,
      'BT-96': statedRate(each.category, each.rate),
      'BT-97': each.spread ? draft.spreadDiscount?.reason : draft.allowances?.[index]?.reason,
    })),
    'BG-21': charges.map((each, index) => ({
      'BT-99': each.amount,
      'BT-102': each.category,
      'BT-103': statedRate(each.category, each.rate),
      'BT-104': draft.charges?.[index]?.reason,
    })),
    'BG-22': totals,
    'BG-23': groups.map((group) => ({
      'BT-116': group.base,
      'BT-117': group.tax,
      'BT-118': group.category,
      'BT-119': statedRate(group.category, group.rate),
      'BT-120': draft.taxReasons?.[group.category],
    })),
    'BG-25': draft.lines.map((line, index) => {
      const net = lines[index]!;
      return {
        'BT-126': String(index + 1),
        'BT-127': line.note,
        'BT-129': line.quantity,
        'BT-130': line.unit,
        'BT-131': net.net,
        'BG-27': net.allowances.map((amount, at) => ({
          'BT-136': amount,
          'BT-139': line.allowances?.[at]?.reason ?? CENT,
        })),
        'BG-28': net.charges.map((amount, at) => ({
          'BT-141': amount,
          'BT-144': line.charges?.[at]?.reason ?? CENT,
        })),
        'BT-146': net.price,
        'BT-149': line.baseQuantity,
        'BT-151': line.category,
        'BT-152': statedRate(line.category, rateOf(line)),
        'BT-153': line.name,
        'BT-154': line.description,
      };
    }),
    unreached: unreached.isZero() ? undefined : unreached,
  };
};
