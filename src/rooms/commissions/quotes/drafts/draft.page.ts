import type { Garment } from '../../../../domain/commissions/garment.js';
import type { DraftChoices } from '../../../../domain/papers/quote/draft-choices.js';
import { CLOTH_PRICES } from '../../../../domain/papers/quote/quote-words.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import type { KeptDraft } from '../../../../storage/books/papers/quote-draft-book.js';
import { gridRows } from '../../../../web/forms/closed-up.js';
import { freshForm } from '../../../../web/forms/form.js';
import type { PageWords } from '../../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../../web/words/amounts.js';
import { commissionCrumbs } from '../../commission.page.js';
import type { QuoteInHand } from '../quote-in-hand.js';
import { quotesUrl } from '../quotes.page.js';
import { typedChoices } from './draft.form.js';

export const draftUrl = (commissionId: string, id: string): string =>
  `${quotesUrl(commissionId)}/drafts/${id}`;

/** A draft's name: a quote of its own, or the next version of one. */
export const draftName = ({ number }: KeptDraft, edition: number): string =>
  number ? `Draft of ${number}, version ${edition}` : 'Draft of a quote';

/** The choices with every garment the commission has now: one that came later stands there unticked. */
export const withEveryGarment = (choices: DraftChoices, garments: readonly Garment[]): DraftChoices => {
  const chosen = new Map(choices.garments.map((garment) => [garment.garmentId, garment]));
  return {
    ...choices,
    garments: garments.map(
      ({ id }) => chosen.get(id) ?? { garmentId: id, included: false, fittings: undefined },
    ),
  };
};

export const draftForm = (kept: KeptDraft, garments: readonly Garment[], locale: string): FormModel =>
  freshForm('', typedChoices(withEveryGarment(kept.choices, garments), locale), kept.version);

/** The page on which a quote is made up. */
export const draftPage = (
  form: FormModel,
  kept: KeptDraft,
  garments: readonly Garment[],
  hand: QuoteInHand,
): { template: string; words: PageWords } => {
  const { commission, studio, paper } = hand;
  const { currency, locale } = studio.identity;
  const url = draftUrl(commission.id, kept.id);
  const names = new Map(paper.garments.map((garment) => [garment.ref, garment]));
  const optionsTyped = Object.keys(form.values).filter((name) => /^options\.\d+\.text$/.test(name)).length;
  const { discount } = paper;
  return {
    template: 'commissions/quotes/draft',
    words: {
      title: draftName(kept, paper.version),
      room: 'commissions',
      crumbs: [...commissionCrumbs(commission), { text: 'Quotes', href: quotesUrl(commission.id) }],
      form: { ...form, action: url },
      asItStands: `As it stands it comes to ${moneyInWords(paper.paper['BG-22']['BT-115'], locale)}${studio.tax.registered ? ' with tax' : ''}.`,
      pricesOf: kept.pricesOf
        ? {
            text: `It keeps the prices of the version that was accepted in part, with what was accepted of it.${
              commission.discount.isZero() || discount
                ? ''
                : ' The discount was for the whole and does not follow to a part.'
            }`,
            href: `/papers/${kept.pricesOf}`,
          }
        : { text: '', href: '' },
      keepsPrices: kept.pricesOf !== undefined,
      accepted: [
        ...paper.garments.map(({ name, price }) => `${name}, ${amountInWords(price, locale)}`),
        ...paper.options
          .filter(({ taken }) => taken)
          .map(({ text, price }) => `${text}, ${amountInWords(price, locale)}`),
      ],
      kept: Object.entries(form.values)
        .filter(([name]) => /^(garments|options)\./.test(name))
        .map(([name, value]) => ({ name, value })),
      garments: garments.map((garment, place) => {
        const price = names.get(garment.id)?.price;
        return {
          id: garment.id,
          label: price ? `${garment.name}, ${amountInWords(price, locale)}` : garment.name,
          fittingsLabel: `${garment.name}: fittings included`,
          hidden: `garments.${place}.garmentId`,
          included: `garments.${place}.included`,
          fittings: `garments.${place}.fittings`,
        };
      }),
      options: {
        caption: 'Offered beside the price',
        columns: [
          { text: 'What' },
          { text: `Price, ${currency}`, figure: true },
          ...(garments.length > 1
            ? [
                {
                  text: 'For',
                  wide: true,
                  options: garments.map(({ id, name }) => ({ value: id, text: name })),
                },
              ]
            : []),
        ],
        rows: gridRows(
          'options',
          garments.length > 1 ? ['text', 'price', 'garmentId'] : ['text', 'price'],
          optionsTyped,
          3,
        ),
      },
      priceKind: studio.tax.registered && studio.tax.pricesInclude === 'tax' ? 'with tax' : 'before tax',
      currency,
      hasDiscount: discount !== undefined,
      discount: discount ? moneyInWords(discount.amount, locale) : '',
      clothWordings: Object.values(CLOTH_PRICES),
      preview: `${url}/preview`,
      leave: { text: 'Leave without keeping', href: quotesUrl(commission.id) },
      remove: { action: `${url}/remove`, text: 'Put this draft away', once: freshForm('').once },
    },
  };
};

/** What a draft chose, for the JSON interface. */
export const draftInJson = (kept: KeptDraft, hand: QuoteInHand): object => ({
  id: kept.id,
  version: kept.version,
  commissionId: kept.commissionId,
  number: kept.number ?? null,
  pricesOf: kept.pricesOf ?? null,
  choices: kept.choices,
  total: hand.paper.paper['BG-22']['BT-115'],
  net: hand.paper.paper['BG-22']['BT-109'],
  deposit: hand.paper.deposit.total,
  garments: hand.paper.garments.map(({ ref, name, net, gross, deposit }) => ({
    ref,
    name,
    net,
    gross,
    deposit,
  })),
  findings: hand.findings,
});
