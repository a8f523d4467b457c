import type { Client } from '../../../domain/clients/client.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { Kept } from '../../../storage/books/house/keeping-book.js';
import type { Fate, Held } from '../../../storage/holding/what-is-held.js';
import type { PageWords } from '../../../web/reply.js';
import { dateInWords } from '../../../web/words/dates.js';
import { clientsCrumb, clientUrl } from '../client.page.js';
import type { InTheWay } from './why-not-erased.js';

export const heldUrl = (clientId: string): string => `${clientUrl(clientId)}/held`;
export const erasureUrl = (clientId: string): string => `${clientUrl(clientId)}/erasure`;

const FATES: Readonly<Record<Fate, string>> = {
  goes: 'goes',
  stays: 'stays, as it was issued',
  nameless: 'loses the name and all remarks',
};

/** Papers of tax stay whole, though lists lose the name. */
const fateOf = (name: string, fate: Fate): string =>
  name === 'Invoices and credit notes'
    ? 'stays, as it was issued; lists show the number alone'
    : name === 'Quotes'
      ? 'an accepted one stays as printed; others go'
      : FATES[fate];

const placesOf = (client: Client): Readonly<Record<string, string>> => {
  const [own, name] = [clientUrl(client.id), encodeURIComponent(client.name)];
  const commissions = `/commissions?client=${client.id}`;
  const account = `/papers/accounts/${client.id}`;
  return {
    Card: own,
    Measurements: `${own}/measurements`,
    'Measured values': `${own}/measurements`,
    Photographs: `/photos?of=client/${client.id}`,
    Patterns: `${own}/patterns`,
    Enquiries: `/clients/enquiries?q=${name}`,
    'Counter work': `/bench/counter?q=${name}`,
    Commissions: commissions,
    Garments: commissions,
    Fittings: commissions,
    'Corrections at fittings': commissions,
    'Changes agreed': commissions,
    Quotes: account,
    'Answers to quotes': account,
    'Invoices and credit notes': account,
    Receipts: account,
    Payments: account,
  };
};

/** What is held on one client: how many of each kind, where, and what becomes of it. */
export const heldPage = (client: Client, held: Held, kept: Kept): PageWords => {
  const places = placesOf(client);
  return {
    title: 'What is held',
    room: 'clients',
    crumbs: [clientsCrumb, { text: client.name, href: clientUrl(client.id) }],
    name: client.name,
    code: client.code,
    ...(kept.erasedOn ? { erased: `Erased on ${dateInWords(kept.erasedOn)} by ${kept.erasedBy}.` } : {}),
    ...(kept.until ? { until: `Kept until ${dateInWords(kept.until)} at least.` } : {}),
    held: {
      caption: 'What is held, and where',
      quietCaption: true,
      columns: [{ text: 'What' }, { text: 'How many', figure: true }, { text: 'When it is erased' }],
      rows: [
        ...held.kinds
          .filter(({ rows }) => rows.length > 0)
          .map(({ name, fate, rows }) => ({
            cells: [
              { text: name, ...(places[name] ? { href: places[name] } : {}) },
              { text: String(rows.length) },
              { text: fateOf(name, fate) },
            ],
          })),
        {
          cells: [
            { text: 'History', href: `/history?about=client/${client.id}` },
            { text: String(held.acts) },
            { text: 'keeps who changed something and when, no longer from what to what' },
          ],
        },
      ],
    },
    files: [
      { text: 'All of it as a table', href: `${clientUrl(client.id)}/export.csv` },
      { text: 'All of it for programs', href: `${clientUrl(client.id)}/export.json` },
    ],
    ...(kept.erasedOn ? {} : { erase: { text: 'Erase all of this', href: erasureUrl(client.id) } }),
  };
};

/** Erasing is asked here: what goes, what stays, and what stands in the way. */
export const erasurePage = (
  client: Client,
  ways: readonly InTheWay[],
  patterns: readonly string[],
  form: FormModel,
): { template: string; words: PageWords } => ({
  template: 'clients/held/erase',
  words: {
    title: `Erase ${client.code}`,
    room: 'clients',
    crumbs: [
      clientsCrumb,
      { text: client.name, href: clientUrl(client.id) },
      { text: 'What is held', href: heldUrl(client.id) },
    ],
    name: client.name,
    hint: `Write ${client.code}, to be sure that it is the right one.`,
    ways: ways.map(({ text, href }) => ({ text, href })),
    patterns: patterns.join(', '),
    form: { ...form, action: erasureUrl(client.id) },
    leave: { text: 'Keep everything', href: heldUrl(client.id) },
  },
});
