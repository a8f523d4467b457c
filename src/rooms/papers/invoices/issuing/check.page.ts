import type { Finding } from '../../../../domain/papers/finding.js';
import { PAPER_CAUTION } from '../../../../domain/papers/quote/quote-words.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import { mendedFor } from '../../../../web/manners/mending.js';
import { houseAt } from '../../../../web/papers/house-at.js';
import type { PageWords } from '../../../../web/reply.js';
import { moneyInWords } from '../../../../web/words/amounts.js';
import { crumbsOf } from '../drafts/draft.page.js';
import type { InvoiceOfDraft } from '../invoice-of-draft.js';
import { draftName, invoiceDraftUrl, KIND_WORDS } from '../invoice-words.js';
import { movedInWords } from '../moved-in-words.js';

const ASKED = ' Is that right?';

/** The draft's own fields, by the gate's names for them. */
const OWN: Readonly<Record<string, string>> = {
  due: 'due',
  supplied: 'supplied',
  note: 'note',
  totals: 'lines.0.price',
  lines: 'lines.0.name',
  discount: 'discount',
  deducts: 'deducts',
  credits: 'credits',
  creditAmount: 'creditAmount',
};

/** Where a finding is mended: in House, on the client's page, or in a field of the draft. */
export const mendAt = ({ client }: InvoiceOfDraft, draft: string, { field }: Finding): string => {
  if (field.startsWith('seller.') || field.startsWith('payment.') || field === 'currency')
    return houseAt(field);
  if (field.startsWith('client.'))
    return `/clients/${client.id}/correct#field-${field.slice('client.'.length)}`;
  if (field === 'taxReasons' || /^lines\.\d+\.(category|rate)$/.test(field)) return houseAt(field);
  const line = /^lines\.(\d+)\.(name|quantity|unit|price)/.exec(field);
  if (line) return `${draft}#field-${line[0]}`;
  return `${draft}#field-${OWN[field] ?? 'lines.0.name'}`;
};

/** The page before an invoice goes out: what it asks, what is missing by rule, what wants a look, and the button. */
export const checkPage = (form: FormModel, told: InvoiceOfDraft): { template: string; words: PageWords } => {
  const { kept, studio, client, hand } = told;
  const { findings } = hand;
  const url = invoiceDraftUrl(kept.commissionId ?? '', kept.id);
  const kind = KIND_WORDS[kept.choices.kind].toLowerCase();
  // One rule can be broken in two places; a tick answers it once.
  const once = findings.filter(
    ({ code, text }, place) => findings.findIndex((one) => one.code === code && one.text === text) === place,
  );
  const toldOf = (finding: Finding) => ({
    text: finding.text,
    code: finding.code,
    yes: finding.text.endsWith(ASKED)
      ? `${finding.text.slice(0, -ASKED.length)} That is right.`
      : `${finding.text} Looked at.`,
    href: mendedFor(url, mendAt(told, url, finding)),
    confirm: `confirm.${finding.code}`,
  });
  const missing = once.filter(({ blocks }) => blocks).map(toldOf);
  const looks = once.filter(({ blocks }) => !blocks).map(toldOf);
  return {
    template: 'paper-room/invoices/check',
    words: {
      title: `Before the ${kind} goes out`,
      room: 'papers',
      crumbs: [...(crumbsOf(told) ?? []), { text: draftName(kept.choices.kind), href: url }],
      form: { ...form, action: `${url}/issue` },
      lead: `To ${client.name}, ${moneyInWords(hand.paper['BG-22']['BT-115'], studio.identity.locale)}.`,
      sentences: movedInWords(hand.moved, studio.identity.locale),
      missing,
      anyMissing: missing.length > 0,
      looks,
      anyLooks: looks.length > 0,
      ready: findings.length === 0,
      button: `Issue the ${kind}`,
      caution: PAPER_CAUTION,
      preview: `${url}/preview`,
      pdf: `${url}/preview.pdf`,
      leave: { text: 'Back to the draft', href: url },
    },
  };
};
