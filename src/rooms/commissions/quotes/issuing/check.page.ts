import type { Finding } from '../../../../domain/papers/finding.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import type { KeptDraft } from '../../../../storage/books/papers/quote-draft-book.js';
import { mendedFor } from '../../../../web/manners/mending.js';
import { houseAt } from '../../../../web/papers/house-at.js';
import type { PageWords } from '../../../../web/reply.js';
import { moneyInWords } from '../../../../web/words/amounts.js';
import { commissionCrumbs, garmentUrl } from '../../commission.page.js';
import { draftName, draftUrl } from '../drafts/draft.page.js';
import type { QuoteInHand } from '../quote-in-hand.js';
import { quotesUrl } from '../quotes.page.js';

/** Where a finding is mended. */
const mendAt = ({ commission, paper, payer }: QuoteInHand, draft: string, { field }: Finding): string => {
  const garment = /^garments\.(\d+)\.(\w+)$/.exec(field);
  const ref = garment ? paper.garments[Number(garment[1])]?.ref : undefined;
  if (garment?.[2] === 'category' || garment?.[2] === 'rate' || field === 'taxReasons') return houseAt(field);
  if (garment?.[2] === 'fittings') return `${draft}#field-garments.0.fittings`;
  if (ref) return `${garmentUrl(commission.id, ref)}${garment?.[2] === 'materials' ? '#field-name' : ''}`;
  if (field.startsWith('seller.')) return houseAt(field);
  if (field.startsWith('client.'))
    return `/clients/${payer.id}/correct#field-${field.slice('client.'.length)}`;
  if (field === 'rates') return '/rates';
  if (field === 'discount') return `/commissions/${commission.id}/pricing`;
  const own: Record<string, string> = {
    issued: 'validUntil',
    agreement: 'kind',
    deposit: 'depositRule',
    'discount.reason': 'discountReason',
    'discount.amount': 'discountReason',
  };
  return `${draft}#field-${own[field] ?? field}`;
};

/** The page before a quote goes out: what it says, what is missing, what wants a look, and the button. */
export const checkPage = (
  form: FormModel,
  kept: KeptDraft,
  hand: QuoteInHand,
): { template: string; words: PageWords } => {
  const { commission, studio, payer, paper, findings } = hand;
  const { locale } = studio.identity;
  const url = draftUrl(commission.id, kept.id);
  const told = findings.map((finding) => ({
    text: finding.text,
    yes: `${finding.text.replace(/ Is that right\?$/, '')} That is right.`,
    href: mendedFor(url, mendAt(hand, url, finding)),
    confirm: `confirm.${finding.code}`,
  }));
  const missing = told.filter((_, place) => findings[place]?.blocks);
  const totals = paper.paper['BG-22'];
  return {
    template: 'commissions/quotes/check',
    words: {
      title: 'Before the quote goes out',
      room: 'commissions',
      crumbs: [
        ...commissionCrumbs(commission),
        { text: 'Quotes', href: quotesUrl(commission.id) },
        { text: draftName(kept, paper.version), href: url },
      ],
      form: { ...form, action: `${url}/issue` },
      lead: `To ${payer.name}, ${moneyInWords(totals['BT-115'], locale)}${studio.tax.registered ? ' with tax' : ''}${
        paper.deposit.total.isZero() ? '' : `, ${moneyInWords(paper.deposit.total, locale)} of it as deposit`
      }.`,
      missing,
      anyMissing: missing.length > 0,
      looks: told.filter((_, place) => !findings[place]?.blocks),
      anyLooks: findings.some(({ blocks }) => !blocks),
      ready: findings.length === 0,
      caution: paper.caution,
      preview: `${url}/preview`,
      pdf: `${url}/preview.pdf`,
      leave: { text: 'Back to the draft', href: url },
    },
  };
};
