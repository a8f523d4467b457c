import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import { type DraftLine, makePaper } from '../model/make-paper.js';
import { unreachedInWords } from '../model/read-paper.js';
import { grossFactor } from '../tax/gross-kept.js';
import { workOutTax } from '../tax/work-out-tax.js';
import { depositOf } from './deposit.js';
import { lineShares } from './garment-shares.js';
import type { PricedOption, QuoteDraft, QuoteOption, QuotePaper } from './quote-paper.js';
import { ACCEPTANCE_LINES, AGREEMENTS, NOT_REGISTERED, PAPER_CAUTION } from './quote-words.js';

const ONE = new Decimal(1);

const priceLine = (
  name: string,
  each: Pick<QuoteOption, 'price' | 'category' | 'rate'>,
  description?: string,
): DraftLine => {
  const negative = each.price.isNegative();
  return {
    name,
    description,
    quantity: negative ? ONE.negated() : ONE,
    unit: 'piece',
    price: each.price.toDecimal().abs(),
    category: each.category,
    rate: each.rate,
  };
};

const priceOption = (draft: QuoteDraft, option: QuoteOption): PricedOption => {
  const { quantity, price, category, rate } = priceLine(option.text, option);
  const answer = workOutTax({
    currency: draft.currency,
    lines: [{ quantity, price, category, rate }],
    pricesInclude: draft.pricesInclude,
    grossPolicy: draft.grossPolicy,
  });
  return { ...option, net: answer['BT-109'], gross: answer['BT-115'] };
};

/**
 * Makes a quote of its draft: one price line per garment, then options that were taken, then lines of no garment; tax
 * groups and totals; the deposit split over garments; the sentences the paper carries.
 *
 * @param draft prices before tax or with it, as `pricesInclude` says
 * @returns amounts in whole minor units; nothing about hours, cost, margin or certainty is in it
 * @throws Invalid or OutOfRange with the field's path (`garments.0.rate`, `options.1.rate`, `deposit.share`)
 * @see test/domain/papers/quote.test.ts
 */
export const makeQuote = (draft: QuoteDraft): QuotePaper => {
  const { garments, options = [], deposit: rule = { rule: 'none' }, ...rest } = draft;
  const taxReasons = {
    ...(draft.registeredForTax ? {} : { E: NOT_REGISTERED }),
    ...draft.taxReasons,
  };
  const paper = makePaper({
    head: {
      kind: 'quote',
      'BT-1': draft.number,
      'BT-2': draft.issued,
      'BT-5': draft.currency,
      'BT-13': draft.orderNumber,
      'BT-20': draft.terms?.join('\n'),
      'BT-22': draft.note,
      'BG-4': draft.seller,
      'BG-7': draft.client,
    },
    lines: [
      ...garments.map((garment) =>
        priceLine(garment.name, garment, garment.scope.map((line) => line.text).join('\n')),
      ),
      ...options.filter((option) => option.taken).map((option) => priceLine(option.text, option)),
      ...(draft.otherLines ?? []),
    ],
    charges: draft.charges,
    spreadDiscount: draft.discount,
    pricesInclude: draft.pricesInclude,
    grossPolicy: draft.grossPolicy,
    taxReasons,
  });
  const shares = lineShares(paper);
  const zero = Money.zero(draft.currency);
  const grossOf = (index: number): Money => shares[index] ?? zero;
  const deposit = depositOf(
    rule,
    paper['BG-22']['BT-115'],
    garments.map((garment, index) => ({
      gross: grossOf(index),
      materials: garment.materials,
      labour: garment.labour,
      grossFactor: grossFactor(garment),
    })),
  );
  return {
    ...rest,
    garments: garments.map(({ materials: _materials, labour: _labour, ...garment }, index) => ({
      ...garment,
      net: paper['BG-25'][index]?.['BT-131'] ?? zero,
      gross: grossOf(index),
      deposit: deposit.parts[index] ?? zero,
    })),
    options: options.map((option) => priceOption(draft, option)),
    deposit,
    depositRule: rule,
    paper,
    taxNotes: paper['BG-23'].flatMap((group) => group['BT-120'] ?? []),
    agreementSentence: draft.agreement && AGREEMENTS[draft.agreement].sentence,
    unreachedSentence: unreachedInWords(paper),
    acceptance: { garments: garments.map((garment) => garment.name), lines: ACCEPTANCE_LINES },
    caution: PAPER_CAUTION,
  };
};

/**
 * The same quote for some of its garments only, as a client may accept it. A discount on the whole does not follow: it was
 * for the whole, so the studio says anew what it gives.
 *
 * @param accepted refs of garments and options taken
 * @returns the draft of the next version, its number kept, its version one higher, not yet issued
 */
export const quoteForSome = (draft: QuoteDraft, accepted: readonly string[]): QuoteDraft => {
  const garments = draft.garments.filter((garment) => accepted.includes(garment.ref));
  const stays = (ref?: string): boolean =>
    ref === undefined || garments.some((garment) => garment.ref === ref);
  return {
    ...draft,
    version: draft.version + 1,
    issued: undefined,
    garments,
    discount: garments.length === draft.garments.length ? draft.discount : undefined,
    options: draft.options
      ?.filter((option) => stays(option.garmentRef))
      .map((option) => ({ ...option, taken: accepted.includes(option.ref) })),
  };
};
