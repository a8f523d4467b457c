import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import type { Agreement } from '../../../domain/papers/quote/quote-words.js';
import type { Priced, QuoteSheet } from '../../../printing/papers/quote-sheet.js';
import { type PaperWords, paperWords } from '../../../printing/papers/words/paper-words.js';
import { quoteLabels } from '../../../printing/papers/words/quote-labels.js';
import { envelopeOf, letterheadOf } from '../../../web/papers/house-on-paper.js';
import { languageOnPaper } from '../../../web/papers/paper-languages.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { decimalSignOf } from '../../../web/words/numeral.js';
import { shareInWords } from '../../../web/words/shares.js';
import { hoursInWords } from '../sum/sum-lines.js';
import type { QuoteInHand } from './quote-in-hand.js';
import { taxesOfQuote, unreachedOf } from './tax-of-quote.js';

/** What stands on the paper besides what was worked out: a preview may have no number yet. */
export type SheetHead = { readonly number: string | undefined; readonly isPreview: boolean };

/** How this quote speaks: words, and money in figures. */
type Manner = PaperWords & {
  readonly amount: (money: Money) => string;
  readonly money: (money: Money) => string;
};

const mannerOf = ({ payer, studio }: QuoteInHand): Manner => {
  const words = paperWords(languageOnPaper(payer, studio));
  return {
    ...words,
    amount: (money) => amountInWords(money, words.locale),
    money: (money) => moneyInWords(money, words.locale),
  };
};

const currencyInWords = (currency: string, locale: string): string =>
  capitalised(new Intl.DisplayNames(locale, { type: 'currency' }).of(currency) ?? currency);

const agreementOf = ({ paper }: QuoteInHand): Agreement => paper.agreement ?? 'fixed-price';

/** The quote in words, ready to print. Hours stand on it only where the maker switched them on. */
export const sheetOfQuote = (hand: QuoteInHand, head: SheetHead): QuoteSheet => {
  const { studio, commission, payer, paper, choices } = hand;
  const { currency } = studio.identity;
  const say = mannerOf(hand);
  const withTax = paper.pricesInclude === 'tax';
  const agreement = agreementOf(hand);
  const unit = currencyInWords(currency, say.locale);
  const unreached = unreachedOf(hand, say);
  const number = head.number ?? say.say('number-not-yet');
  return {
    language: say.locale,
    labels: quoteLabels(say.locale),
    letterhead: letterheadOf(studio, { language: say.locale, mark: hand.mark }),
    notice: head.isPreview ? say.say('preview') : '',
    title: say.say(agreement === 'estimate' ? 'quote.title.estimate' : 'quote.title.quotation'),
    number,
    version: String(paper.version),
    date: paper.issued ? say.date(paper.issued) : '',
    validUntil: paper.validUntil ? say.date(paper.validUntil) : say.say('quote.not-said'),
    kind: { name: say.say(`quote.kind.${agreement}`), meaning: meaningOf(hand, say) },
    client: {
      name: payer.name,
      address: envelopeOf(payer),
      reference: commission.orderNumber,
    },
    subject: commission.title,
    opening: choices.opening,
    garments: garmentsOf(hand, say),
    fittings: paper.garments.flatMap(({ name, fittings }) =>
      fittings === undefined ? [] : [say.say('of', { label: name, words: fittingsIn(say, fittings) })],
    ),
    excluded: [...(paper.exclusions ?? [])],
    options: paper.options
      .filter(({ taken }) => !taken)
      .map((option) => ({
        name: option.text,
        words: [
          forGarment(hand, say, option.garmentRef),
          ...(option.gross.equals(option.price) ? [] : [say.say('tax.before')]),
        ]
          .filter((said) => said !== '')
          .join(', '),
        price: say.amount(option.price),
      })),
    price: {
      currency: withTax ? `${unit}, ${say.say('tax.included')}` : unit,
      lines: priceLinesOf(hand, say),
      taxes: taxesOfQuote(hand, say),
      total: {
        label: say.say(`quote.total.${agreement}`, { currency }),
        amount: say.amount(paper.paper['BG-22']['BT-115']),
      },
      notes: unreached ? [unreached] : [],
    },
    deposit: depositOf(hand, say),
    dates: paper.garments.flatMap(({ name, ready }) =>
      ready ? [{ label: say.say('quote.ready', { garment: name }), words: say.weekday(ready) }] : [],
    ),
    cloth: choices.clothWording,
    hours: choices.showHours ? hoursOf(hand, say) : null,
    terms: [...(paper.terms ?? [])],
    acceptance: acceptanceOf(hand, say, number),
  };
};

const fittingsIn = (say: Manner, count: number): string =>
  count === 0 ? say.say('quote.fitting.none') : say.count('quote.fitting', count);

const meaningOf = (hand: QuoteInHand, say: Manner): string => {
  const { paper } = hand;
  const sentence = say.say(`quote.meaning.${agreementOf(hand)}`);
  if (paper.agreement !== 'time' || !paper.hourPrice) return sentence;
  const tax = say.say(paper.pricesInclude === 'tax' ? 'tax.with' : 'tax.before');
  return `${sentence} ${say.say('quote.hour', { price: say.money(paper.hourPrice), tax })}`;
};

const forGarment = ({ paper }: QuoteInHand, say: Manner, ref: string | undefined): string => {
  const garment = ref === undefined ? undefined : paper.garments.find((one) => one.ref === ref);
  return garment && paper.garments.length > 1 ? say.say('quote.for-garment', { garment: garment.name }) : '';
};

const garmentsOf = (hand: QuoteInHand, say: Manner): QuoteSheet['garments'] => {
  const { paper, words } = hand;
  const said = new Map(words.map((one) => [one.ref, one]));
  return [
    ...paper.garments.map((garment) => ({
      number: said.get(garment.ref)?.number ?? '',
      name: garment.name,
      wearer: garment.wearer ?? '',
      make: said.get(garment.ref)?.make ?? '',
      scope: garment.scope.map(({ text }) => text),
      parts: [],
      price: say.amount(garment.price),
    })),
    // An option that was taken is work like any other, and the column must add up.
    ...paper.options
      .filter(({ taken }) => taken)
      .map((option) => ({
        number: '',
        name: option.text,
        wearer: '',
        make: forGarment(hand, say, option.garmentRef),
        scope: [],
        parts: [],
        price: say.amount(option.price),
      })),
  ];
};

const priceLinesOf = ({ paper, studio }: QuoteInHand, say: Manner): Priced[] => {
  const taken = paper.options.filter((option) => option.taken);
  const together = Money.sum(
    [...paper.garments, ...taken].map(({ price }) => price),
    studio.identity.currency,
  );
  const garments = paper.garments.length;
  const what = [
    say.count('quote.garment', garments, say.number(garments)),
    ...(taken.length > 0 ? [say.count('quote.addition', taken.length)] : []),
  ].join(', ');
  const before = paper.paper['BG-22']['BT-109'];
  const { discount } = paper;
  const isPlain = !discount && before.equals(together);
  return [
    ...(isPlain ? [] : [{ label: what, amount: say.amount(together) }]),
    ...(discount
      ? [
          {
            label: discount.reason || say.say('quote.discount'),
            amount: say.amount(discount.amount.negated()),
          },
        ]
      : []),
    {
      label: isPlain ? `${what}, ${say.say('tax.before')}` : say.say('quote.before-tax'),
      amount: say.amount(before),
    },
  ];
};

const depositOf = ({ paper }: QuoteInHand, say: Manner): QuoteSheet['deposit'] => {
  const { depositRule: rule, deposit, garments } = paper;
  if (rule.rule === 'none') return null;
  const share = (part: Decimal): string =>
    shareInWords(part, 2, decimalSignOf(say.locale)).replace(' ', '\u00a0');
  const what = {
    share: () => (rule.rule === 'share' ? say.say('quote.deposit.share', { share: share(rule.share) }) : ''),
    'materials-and-labour': () =>
      rule.rule !== 'materials-and-labour' || rule.labourShare.isZero()
        ? say.say('quote.deposit.materials')
        : say.say('quote.deposit.materials-labour', { share: share(rule.labourShare) }),
    amount: () => say.say('quote.deposit.amount'),
  }[rule.rule]();
  return {
    words: say.say('quote.deposit.due', { what }),
    amount: say.amount(deposit.total),
    shares:
      garments.length > 1
        ? garments.map((garment) => ({ label: garment.name, amount: say.amount(garment.deposit) }))
        : [],
    balance: {
      label: say.say(garments.length > 1 ? 'quote.balance.other' : 'quote.balance.one'),
      amount: say.amount(paper.paper['BG-22']['BT-115'].minus(deposit.total)),
    },
  };
};

const hoursOf = ({ paper, minutes }: QuoteInHand, say: Manner): QuoteSheet['hours'] => {
  const of = (ref: string): Decimal => new Decimal(minutes[ref] ?? 0);
  const total = paper.garments.reduce((sum, { ref }) => sum.plus(of(ref)), new Decimal(0));
  return {
    words: say.say('quote.hours-note'),
    lines: paper.garments.map(({ ref, name }) => ({ label: name, amount: hoursInWords(of(ref)) })),
    total: { label: say.say('quote.hours-total'), amount: hoursInWords(total) },
  };
};

const acceptanceOf = (hand: QuoteInHand, say: Manner, number: string): QuoteSheet['acceptance'] => {
  const { paper } = hand;
  const options = paper.options.filter(({ taken }) => !taken).map(({ text }) => text);
  const several = paper.garments.length > 1 || options.length > 0;
  const title = say.say(
    agreementOf(hand) === 'estimate' ? 'quote.accept.estimate' : 'quote.accept.quotation',
  );
  return {
    words: say.say(several ? 'quote.accept-ticked' : 'quote.accept', {
      title,
      number,
      version: String(paper.version),
    }),
    choices: several
      ? [
          say.say('quote.everything'),
          ...(paper.garments.length > 1 ? paper.garments : []).map(({ name }) => name),
          ...options,
        ]
      : [],
  };
};
