import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import { AGREEMENTS } from '../../../domain/papers/quote/quote-words.js';
import { TAX_CATEGORIES } from '../../../domain/papers/tax/category.js';
import type { Priced, QuoteSheet, QuoteTax } from '../../../printing/papers/quote-sheet.js';
import { envelopeOf, letterheadOf } from '../../../web/papers/house-on-paper.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords, dayInWords } from '../../../web/words/dates.js';
import { shareInWords } from '../../../web/words/shares.js';
import { hoursInWords } from '../sum/sum-lines.js';
import type { QuoteInHand } from './quote-in-hand.js';

/** What stands on the paper besides what was worked out. */
export type SheetHead = { readonly number: string; readonly notice: string };

const NUMBERS = 'Two Three Four Five Six Seven Eight Nine Ten Eleven Twelve'.split(' ');
const many = (count: number): string =>
  count === 1 ? 'The garment' : `${NUMBERS[count - 2] ?? String(count)} garments`;

const currencyInWords = (currency: string): string => {
  const name = new Intl.DisplayNames('en-GB', { type: 'currency' }).of(currency);
  return name ?? currency;
};

/** The quote in words, ready to print. Hours stand on it only where the maker switched them on. */
export const sheetOfQuote = (hand: QuoteInHand, head: SheetHead): QuoteSheet => {
  const { studio, commission, payer, paper, choices } = hand;
  const { locale, currency } = studio.identity;
  const withTax = paper.pricesInclude === 'tax';
  const agreement = AGREEMENTS[paper.agreement ?? 'fixed-price'];
  const title = paper.agreement === 'estimate' ? 'Estimate' : 'Quotation';
  return {
    language: locale.toLowerCase().startsWith('en') ? locale : 'en',
    letterhead: letterheadOf(studio),
    notice: head.notice,
    title,
    number: head.number,
    version: String(paper.version),
    date: paper.issued ? dateInWords(paper.issued) : '',
    validUntil: paper.validUntil ? dateInWords(paper.validUntil) : 'not said',
    kind: { name: agreement.words, meaning: meaningOf(hand) },
    client: {
      name: payer.name,
      address: envelopeOf(payer),
      reference: commission.orderNumber,
    },
    subject: commission.title,
    opening: choices.opening,
    garments: garmentsOf(hand),
    fittings: paper.garments.flatMap(({ name, fittings }) =>
      fittings === undefined ? [] : [`${name}: ${countInWords(fittings, 'fitting')}`],
    ),
    excluded: [...(paper.exclusions ?? [])],
    options: paper.options
      .filter(({ taken }) => !taken)
      .map((option) => ({
        name: option.text,
        words: [
          forGarment(hand, option.garmentRef),
          ...(option.gross.equals(option.price) ? [] : ['before tax']),
        ]
          .filter((said) => said !== '')
          .join(', '),
        price: amountInWords(option.price, locale),
      })),
    price: {
      currency: withTax ? `${currencyInWords(currency)}, tax included` : currencyInWords(currency),
      lines: priceLinesOf(hand),
      taxes: taxesOf(hand),
      total: {
        label: `${TOTALS[paper.agreement ?? 'fixed-price']}, in ${currency}`,
        amount: amountInWords(paper.paper['BG-22']['BT-115'], locale),
      },
      notes: paper.unreachedSentence ? [paper.unreachedSentence] : [],
    },
    deposit: depositOf(hand),
    dates: paper.garments.flatMap(({ name, ready }) =>
      ready ? [{ label: `${name} ready`, words: dayInWords(ready) }] : [],
    ),
    cloth: choices.clothWording,
    hours: choices.showHours ? hoursOf(hand) : null,
    terms: [...(paper.terms ?? [])],
    acceptance: acceptanceOf(hand, title.toLowerCase(), head.number),
  };
};

const TOTALS = {
  'fixed-price': 'Total to pay',
  estimate: 'Estimated total',
  time: 'Expected total',
} as const;

const meaningOf = ({ paper, studio }: QuoteInHand): string => {
  // The paper says which it is right before this.
  const sentence = (paper.agreementSentence ?? '').replace(/^This is an? [^.]*\. /, '');
  if (paper.agreement !== 'time' || !paper.hourPrice) return sentence;
  const tax = paper.pricesInclude === 'tax' ? 'with tax' : 'before tax';
  const hour = moneyInWords(paper.hourPrice, studio.identity.locale);
  return `${sentence} An hour is ${hour} ${tax}; the prices below are what we expect it to come to.`;
};

const forGarment = ({ paper }: QuoteInHand, ref: string | undefined): string => {
  const garment = ref === undefined ? undefined : paper.garments.find((one) => one.ref === ref);
  return garment && paper.garments.length > 1 ? `for the ${garment.name.toLowerCase()}` : '';
};

const garmentsOf = (hand: QuoteInHand): QuoteSheet['garments'] => {
  const { paper, words, studio } = hand;
  const { locale } = studio.identity;
  const said = new Map(words.map((one) => [one.ref, one]));
  return [
    ...paper.garments.map((garment) => ({
      number: said.get(garment.ref)?.number ?? '',
      name: garment.name,
      wearer: garment.wearer ?? '',
      make: said.get(garment.ref)?.make ?? '',
      scope: garment.scope.map(({ text }) => text),
      parts: [],
      price: amountInWords(garment.price, locale),
    })),
    // An option that was taken is work like any other, and the column must add up.
    ...paper.options
      .filter(({ taken }) => taken)
      .map((option) => ({
        number: '',
        name: option.text,
        wearer: '',
        make: forGarment(hand, option.garmentRef),
        scope: [],
        parts: [],
        price: amountInWords(option.price, locale),
      })),
  ];
};

const priceLinesOf = ({ paper, studio }: QuoteInHand): Priced[] => {
  const { locale, currency } = studio.identity;
  const amount = (money: Money): string => amountInWords(money, locale);
  const taken = paper.options.filter((option) => option.taken);
  const together = Money.sum(
    [...paper.garments, ...taken].map(({ price }) => price),
    currency,
  );
  const what = `${many(paper.garments.length)}${taken.length > 0 ? `, ${countInWords(taken.length, 'addition')}` : ''}`;
  const before = paper.paper['BG-22']['BT-109'];
  const discount = paper.discount;
  const isPlain = !discount && before.equals(together);
  return [
    ...(isPlain ? [] : [{ label: what, amount: amount(together) }]),
    ...(discount
      ? [{ label: discount.reason || 'Discount', amount: amount(discount.amount.negated()) }]
      : []),
    { label: isPlain ? `${what}, before tax` : 'Price before tax', amount: amount(before) },
  ];
};

const taxesOf = ({ paper, studio }: QuoteInHand): QuoteTax[] => {
  const { locale } = studio.identity;
  const rounding = paper.paper['BG-22']['BT-114'];
  return [
    ...paper.paper['BG-23'].map((group): QuoteTax => {
      const category = TAX_CATEGORIES[group['BT-118']];
      const on = amountInWords(group['BT-116'], locale);
      const note = group['BT-120'] ?? '';
      return category.taxed
        ? {
            name: `Tax ${(group['BT-119'] ?? new Decimal(0)).toFixed()} %`,
            on,
            amount: amountInWords(group['BT-117'], locale),
            note,
          }
        : { name: capitalised(category.words), on: '', amount: '', note };
    }),
    ...(rounding.isZero()
      ? []
      : [{ name: 'Rounding', on: '', amount: amountInWords(rounding, locale), note: '' }]),
  ];
};

const depositOf = ({ paper, studio }: QuoteInHand): QuoteSheet['deposit'] => {
  const { locale } = studio.identity;
  const { depositRule: rule, deposit } = paper;
  if (rule.rule === 'none') return null;
  const words = {
    share: () => (rule.rule === 'share' ? `${shareInWords(rule.share, 2)} of the total` : ''),
    'materials-and-labour': () =>
      rule.rule === 'materials-and-labour'
        ? `all materials${rule.labourShare.isZero() ? '' : ` and ${shareInWords(rule.labourShare, 2)} of the labour`}`
        : '',
    amount: () => 'an agreed sum',
  }[rule.rule]();
  const garments = paper.garments;
  const due = paper.paper['BG-22']['BT-115'];
  return {
    words: `Due with your order: ${words}`,
    amount: amountInWords(deposit.total, locale),
    shares:
      garments.length > 1
        ? garments.map((garment) => ({ label: garment.name, amount: amountInWords(garment.deposit, locale) }))
        : [],
    balance: {
      label: garments.length > 1 ? 'Balance, payable as each garment leaves' : 'Balance, payable on delivery',
      amount: amountInWords(due.minus(deposit.total), locale),
    },
  };
};

const hoursOf = ({ paper, minutes }: QuoteInHand): QuoteSheet['hours'] => {
  const of = (ref: string): Decimal => new Decimal(minutes[ref] ?? 0);
  const total = paper.garments.reduce((sum, { ref }) => sum.plus(of(ref)), new Decimal(0));
  return {
    words: 'What the price rests on; not a count of what will be worked.',
    lines: paper.garments.map(({ ref, name }) => ({ label: name, amount: hoursInWords(of(ref)) })),
    total: { label: 'Together', amount: hoursInWords(total) },
  };
};

const acceptanceOf = ({ paper }: QuoteInHand, title: string, number: string): QuoteSheet['acceptance'] => {
  const options = paper.options.filter(({ taken }) => !taken).map(({ text }) => text);
  const several = paper.garments.length > 1 || options.length > 0;
  const what = `I accept ${title} ${number}, version ${paper.version}`;
  return {
    words: several ? `${what}, for what is ticked here.` : `${what}.`,
    choices: several
      ? [
          'Everything in the price',
          ...(paper.garments.length > 1 ? paper.garments : []).map(({ name }) => name),
          ...options,
        ]
      : [],
  };
};
