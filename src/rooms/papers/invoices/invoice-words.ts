import type { Commission } from '../../../domain/commissions/commission.js';
import type { DraftedKind } from '../../../domain/papers/invoice/invoice-choices.js';
import type { Link } from '../../../printing/templates/page-model.js';
import type { InvoiceKind, ListedInvoice } from '../../../storage/books/papers/invoice-book.js';

/** What each kind is called on pages. */
export const KIND_WORDS: Readonly<Record<InvoiceKind, string>> = {
  'deposit-invoice': 'Deposit invoice',
  'part-invoice': 'Part invoice',
  invoice: 'Invoice',
  'final-invoice': 'Final invoice',
  'credit-note': 'Credit note',
  receipt: 'Receipt',
};

export const invoicesUrl = (commissionId: string): string => `/commissions/${commissionId}/invoices`;
export const invoiceDraftUrl = (commissionId: string, id: string): string =>
  `${invoicesUrl(commissionId)}/drafts/${id}`;
export const paperUrl = (id: string): string => `/papers/${id}`;

export const draftName = (kind: DraftedKind): string => `Draft: ${KIND_WORDS[kind].toLowerCase()}`;

export const invoiceName = ({ kind, number }: Pick<ListedInvoice, 'kind' | 'number'>): string =>
  `${KIND_WORDS[kind]} ${number}`;

export const invoiceCrumbs = ({ id, number }: Pick<Commission, 'id' | 'number'>): Link[] => [
  { text: 'Commissions', href: '/commissions' },
  { text: number, href: `/commissions/${id}` },
  { text: 'Invoices', href: invoicesUrl(id) },
];
