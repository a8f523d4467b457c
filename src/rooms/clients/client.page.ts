import type { Client } from '../../domain/clients/client.js';
import type { FormModel, Link } from '../../printing/templates/page-model.js';
import type { PageOf } from '../../storage/books/client-book.js';
import { freshForm } from '../../web/forms/form.js';
import { paperLanguageChoices, paperLanguageInWords } from '../../web/papers/paper-languages.js';
import type { PageWords } from '../../web/reply.js';
import { dateInWords } from '../../web/words/dates.js';
import { typedClient } from './client.form.js';
import type { TableWords } from './measurements/through-time.js';

export const clientsCrumb: Link = { text: 'Clients', href: '/clients' };
export const clientUrl = (id: string): string => `/clients/${id}`;

/** The list, and what was looked for in it. */
export const clientListPage = (found: PageOf<Client>, asked: string, after: string): PageWords => ({
  title: asked ? `Clients: ${asked}` : 'Clients',
  room: 'clients',
  asked,
  found: {
    caption: 'Clients by name',
    quietCaption: true,
    columns: [{ text: 'Name' }, { text: 'Number' }, { text: 'Reached at' }],
    rows: found.items.map((client) => ({
      cells: [
        { text: client.name, href: clientUrl(client.id) },
        { text: client.code },
        { text: client.phone || client.email },
      ],
    })),
  },
  any: found.items.length > 0,
  nobodyYet: found.items.length === 0 && !asked && !after,
  pager: pagerOf(asked, after, found.next),
});

const pagerOf = (asked: string, after: string, next: string | undefined): Record<string, unknown> => {
  const query = asked ? `q=${encodeURIComponent(asked)}&` : '';
  return {
    label: 'Clients',
    ...(after ? { earlier: { text: 'From the beginning', href: `/clients?${query}` } } : {}),
    ...(next ? { later: { text: 'Further on', href: `/clients?${query}after=${next}` } } : {}),
  };
};

/** The form for a new client, or to correct one. */
export const clientFormPage = (form: FormModel, client?: Client): { template: string; words: PageWords } => ({
  template: 'clients/edit',
  words: {
    title: client ? `Correct ${client.name}` : 'New client',
    tab: client ? `Correct client ${client.code}` : 'New client',
    room: 'clients',
    crumbs: client ? [clientsCrumb, { text: client.name, href: clientUrl(client.id) }] : [clientsCrumb],
    form: { ...form, action: client ? clientUrl(client.id) : '/clients' },
    languages: paperLanguageChoices(),
    leave: { text: 'Leave without saving', href: client ? clientUrl(client.id) : '/clients' },
  },
});

/** A new client is taken to live where the house stands, until something else is written. */
export const newClientForm = (country: string): FormModel => freshForm('/clients', { country });
export const correctClientForm = (client: Client): FormModel =>
  freshForm(clientUrl(client.id), typedClient(client), client.version);

/** The measurements a client's page shows, and where the newest set is. */
export type ClientMeasured = { readonly time: TableWords; readonly set: Link; readonly card: string };

/** One client: who, how to reach them, what they measured last, and what hangs on them. */
export const clientPage = (
  client: Client,
  measured: ClientMeasured | undefined,
  may: (href: string) => boolean,
): PageWords => ({
  title: client.name,
  tab: `Client ${client.code}`,
  room: 'clients',
  crumbs: [clientsCrumb],
  id: client.id,
  code: client.code,
  facts: [
    { label: 'Address', text: client.address },
    { label: 'Country', text: client.country },
    { label: 'Telephone', text: client.phone },
    { label: 'Email', text: client.email },
    { label: 'Tax number', text: client.taxNumber },
    {
      label: 'Papers in',
      text: client.paperLanguage ? paperLanguageInWords(client.paperLanguage) : '',
    },
    { label: 'Born', text: client.birthDate ? dateInWords(client.birthDate) : '' },
    { label: 'Guardian', text: client.guardian || (client.isChild ? 'to be named' : '') },
    { label: 'Notes', text: client.notes },
  ].filter(({ text }) => text !== ''),
  measured,
  links: [
    { text: 'Open a commission', href: `/commissions/new?client=${client.id}` },
    { text: 'Commissions', href: `/commissions?client=${client.id}` },
    { text: 'Account', href: `/papers/accounts/${client.id}` },
    { text: 'Patterns', href: `${clientUrl(client.id)}/patterns` },
    { text: 'Photographs', href: `/photos?of=client/${client.id}` },
    { text: 'What is held', href: `${clientUrl(client.id)}/held` },
    { text: 'History', href: `/history?about=client/${client.id}` },
  ].filter(({ href }) => may(href)),
});
