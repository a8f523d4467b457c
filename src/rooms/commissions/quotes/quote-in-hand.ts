import type { Client } from '../../../domain/clients/client.js';
import type { Commission } from '../../../domain/commissions/commission.js';
import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import type { Studio } from '../../../domain/house/studio.js';
import { Money } from '../../../domain/kernel/money.js';
import { type Finding, mustMend, wantsLook } from '../../../domain/papers/finding.js';
import type { DepositRule } from '../../../domain/papers/quote/deposit.js';
import { AGREEMENT_OF, type DraftChoices } from '../../../domain/papers/quote/draft-choices.js';
import { quoteFindings } from '../../../domain/papers/quote/quote-findings.js';
import type { QuoteDraft, QuotedGarment, QuotePaper } from '../../../domain/papers/quote/quote-paper.js';
import { grossFactor } from '../../../domain/papers/tax/gross-kept.js';
import { paperWords } from '../../../printing/papers/words/paper-words.js';
import { quotableGarment } from '../../../storage/books/bench/agreed-plan-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { markBook, type StudioMark } from '../../../storage/books/house/mark-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { quoteBook } from '../../../storage/books/papers/quote-book.js';
import type { KeptDraft } from '../../../storage/books/papers/quote-draft-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { buyerOf, sellerOf, taxOf } from '../../../web/papers/house-on-paper.js';
import { languageOnPaper } from '../../../web/papers/paper-languages.js';
import { pricingOf, sumOfPlanned } from '../sum/sum-of.js';
import { type FrozenCosts, freezeGarment, freezeTerms } from './frozen-costs.js';
import { keptPrices } from './kept-prices.js';
import { paperOfDraft } from './paper-of-draft.js';

/** What a garment is called on the paper beside its price. */
export type PaperGarment = { readonly ref: string; readonly number: string; readonly make: string };

/** A quote as it would go out now: the paper, what it rests on, and what is missing. */
export type QuoteInHand = {
  readonly studio: Studio;
  readonly commission: Commission;
  /** To whom it is addressed. */
  readonly payer: Client;
  /** The picture on the letterhead. */
  readonly mark: StudioMark | undefined;
  readonly choices: DraftChoices;
  readonly draft: QuoteDraft;
  readonly paper: QuotePaper;
  readonly words: readonly PaperGarment[];
  /** Priced minutes by garment, as whole minutes. */
  readonly minutes: Readonly<Record<string, string>>;
  readonly costs: FrozenCosts;
  readonly findings: readonly Finding[];
};

/**
 * Works a draft out as the commission, the house and the rates stand today, or at the prices of an earlier version
 * where the draft keeps those.
 */
export const quoteInHand = async (reading: Reading, clock: Clock, kept: KeptDraft): Promise<QuoteInHand> => {
  const pricing = await pricingOf(reading, clock, kept.commissionId);
  const { studio, commission } = pricing;
  const { choices } = kept;
  const today = todayIn(clock, studio.identity.zone);
  const payer = await clientBook.one(reading, commission.payerId);
  const edition = kept.number ? (await quoteBook.lastEdition(reading, kept.number)) + 1 : 1;
  const terms = termsOf(studio, commission, choices);
  const priced = kept.pricesOf
    ? keptPrices(await quoteBook.one(reading, kept.pricesOf), choices)
    : await pricedToday(reading, pricing, choices, today, payer);
  const { category, rate, reason } = taxOf(studio);
  const asked: QuoteDraft = {
    ...terms,
    ...(kept.number ? { number: kept.number } : {}),
    version: edition,
    issued: today,
    currency: studio.identity.currency,
    seller: sellerOf(studio),
    client: buyerOf(payer),
    registeredForTax: studio.tax.registered,
    ...(reason ? { taxReasons: { [category]: reason } } : {}),
    ...discountOf(studio, commission, choices),
    options: choices.options.map((option, place) => ({
      ref: `option-${place + 1}`,
      text: option.text,
      ...(option.garmentId ? { garmentRef: option.garmentId } : {}),
      price: option.price,
      category,
      ...(rate ? { rate } : {}),
      taken: option.taken,
    })),
    ...priced.draft,
  };
  const { draft, paper, findings: left } = paperOfDraft(asked);
  const findings = [...quoteFindings(paper), ...priced.findings, ...left, ...belowNought(paper)];
  const { words, minutes, costs } = priced;
  const mark = await markBook.maybe(reading);
  return { studio, commission, payer, mark, choices, draft, paper, words, minutes, costs, findings };
};

/** A discount larger than the price would leave the studio owing the client. */
const belowNought = ({ paper }: QuotePaper): Finding[] =>
  paper['BG-22']['BT-115'].isNegative()
    ? [mustMend('below-nought', 'discount', 'The discount is larger than the price.')]
    : [];

/** Garments with their prices, however they were come by. */
export type Priced = Pick<QuoteInHand, 'words' | 'minutes' | 'costs' | 'findings'> & {
  readonly draft: Pick<QuoteDraft, 'garments'> & Partial<QuoteDraft>;
};

const pricedToday = async (
  reading: Reading,
  pricing: Awaited<ReturnType<typeof pricingOf>>,
  choices: DraftChoices,
  today: string,
  payer: Client,
): Promise<Priced> => {
  const { studio, commission } = pricing;
  const included = new Map(
    choices.garments.filter((garment) => garment.included).map((garment) => [garment.garmentId, garment]),
  );
  const types = new Map((await makingBook.types(reading)).map((type) => [type.id, type]));
  const rates = await ratesBook.on(reading, today);
  const garments: QuotedGarment[] = [];
  const frozen: FrozenCosts['garments'][number][] = [];
  const words: PaperGarment[] = [];
  const findings: Finding[] = [];
  const minutes: Record<string, string> = {};
  const { say } = paperWords(languageOnPaper(payer, studio));
  for (const { id } of await garmentBook.ofCommission(reading, commission.id)) {
    const chosen = included.get(id);
    if (!chosen) continue;
    const planned = await quotableGarment(reading, id);
    const sum = await sumOfPlanned(pricing, planned);
    const { garment } = planned;
    const at = `garments.${garments.length}`;
    const wearer =
      garment.wearerId === payer.id ? undefined : (await clientBook.one(reading, garment.wearerId)).name;
    const { category, rate } = taxOf(studio);
    const withTax = studio.tax.pricesInclude === 'tax' && studio.tax.registered;
    const net = sum?.net ?? garment.ownPrice ?? Money.zero(studio.identity.currency);
    const sheet = sum?.answer.costSheet;
    garments.push({
      ref: id,
      name: garment.name,
      ...(wearer === undefined ? {} : { wearer }),
      scope: scopeOf(planned),
      ...(chosen.fittings === undefined ? {} : { fittings: chosen.fittings }),
      ...(garment.dueOn ? { ready: garment.dueOn } : {}),
      price: withTax
        ? (sum?.answer.price.gross ?? net.timesRounded(grossFactor({ category, ...(rate ? { rate } : {}) })))
        : net,
      category,
      ...(rate ? { rate } : {}),
      ...(sheet
        ? {
            materials: sheet.materials.plus(sheet.stashUplift),
            labour: sheet.labour.plus(sheet.mending.labour).plus(sheet.keptBack.labour),
          }
        : {}),
    });
    const isMenu = types.get(garment.typeId)?.isMenu ?? true;
    words.push({
      ref: id,
      number: `${commission.number}/${garment.place}`,
      make: isMenu ? '' : say(`quote.make.${garment.make}`),
    });
    if (!sum) {
      if (!garment.ownPrice) findings.push(mustMend('rates', 'rates', NO_RATES(garment.name)));
      continue;
    }
    minutes[id] = sum.answer.minutes.priced.toFixed(0);
    frozen.push(freezeGarment(planned, sum, pricing));
    if (sum.untimed.length > 0)
      findings.push(
        wantsLook(`untimed-${garments.length}`, `${at}.plan`, UNTIMED(garment.name, sum.untimed)),
      );
  }
  return {
    draft: { garments },
    words,
    minutes,
    findings,
    costs: { pricesOf: undefined, ...freezeTerms(studio, commission, rates), garments: frozen },
  };
};

const NO_RATES = (name: string): string =>
  `${name} has no price: the studio does not know yet what an hour costs.`;
const UNTIMED = (name: string, untimed: readonly string[]): string =>
  `${name}: nobody has said how long this takes, so it is not in the price: ${untimed.slice(0, 4).join(', ')}. Is that right?`;

/** The lines marked as shown, in the client's wording: work first, then materials, then expenses. */
const scopeOf = ({ plan, materials, expenses }: PlannedGarment): { text: string }[] =>
  [...plan, ...materials, ...expenses]
    .filter((line) => line.shownToClient)
    .map((line) => ({ text: line.clientWording || line.name }));

const linesOf = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');

const termsOf = (studio: Studio, commission: Commission, choices: DraftChoices) => {
  const withTax = studio.tax.pricesInclude === 'tax' && studio.tax.registered;
  return {
    ...(choices.validUntil ? { validUntil: choices.validUntil } : {}),
    agreement: AGREEMENT_OF[choices.kind],
    ...(choices.hourPrice ? { hourPrice: choices.hourPrice } : {}),
    exclusions: linesOf(choices.exclusions),
    ...(choices.clothWording ? { clothPrice: choices.clothWording } : {}),
    terms: linesOf(choices.terms),
    deposit: depositRuleOf(choices),
    ...(commission.orderNumber ? { orderNumber: commission.orderNumber } : {}),
    ...(choices.opening ? { note: choices.opening } : {}),
    ...(withTax ? { pricesInclude: 'tax' as const, grossPolicy: 'rounding' as const } : {}),
  };
};

const depositRuleOf = ({ depositRule, depositShare, depositAmount }: DraftChoices): DepositRule => {
  switch (depositRule) {
    case 'none':
      return { rule: 'none' };
    case 'share':
      return { rule: 'share', share: depositShare };
    case 'materials-and-labour':
      return { rule: 'materials-and-labour', labourShare: depositShare };
    case 'amount':
      return depositAmount ? { rule: 'amount', amount: depositAmount } : { rule: 'none' };
  }
};

/** The commission's discount is before tax; where prices are kept with tax, so is what the paper takes off. */
const discountOf = (
  studio: Studio,
  { discount }: Commission,
  { discountReason }: DraftChoices,
): Pick<QuoteDraft, 'discount'> => {
  if (discount.isZero()) return {};
  const { category, rate } = taxOf(studio);
  const withTax = studio.tax.pricesInclude === 'tax' && studio.tax.registered;
  const amount = withTax
    ? discount.timesRounded(grossFactor({ category, ...(rate ? { rate } : {}) }))
    : discount;
  return { discount: { amount, reason: discountReason } };
};
