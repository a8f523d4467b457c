import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { Invalid } from '../../domain/kernel/errors.js';
import type { Paper, PaperLine } from '../../domain/papers/model/paper.js';
import { isIban, plainIban } from '../../domain/papers/payment/iban.js';

/** BT-24: the core invoice model itself, no specification built on it. */
export const CORE_INVOICE = 'urn:cen.eu:en16931:2017';

/** What both syntaxes cannot be written without. */
export type InvoiceFacts = {
  readonly number: string;
  readonly issued: CalendarDate;
  readonly code: string;
  readonly lines: readonly PaperLine[];
};

/** UNTDID 4461: credit transfer where an account is named, else an instrument that is not defined. */
export const paymentCode = (paper: Paper): string =>
  paper['BG-16']?.['BT-81'] ?? (paper['BG-16']?.['BT-84'] ? '30' : '1');

/** BT-84 as machines read it: an IBAN without blanks, any other account number as it stands. */
export const accountNumber = (paper: Paper): string | undefined => {
  const account = paper['BG-16']?.['BT-84'];
  return account !== undefined && isIban(account) ? plainIban(account) : account;
};

/**
 * The facts without which neither syntax can say an invoice.
 *
 * @throws Invalid when the paper is no invoice, has no number, no date or no line
 */
export const invoiceFacts = (paper: Paper): InvoiceFacts => {
  const { 'BT-1': number, 'BT-2': issued, 'BT-3': code, 'BG-25': lines } = paper;
  if (code === undefined) throw new Invalid('Only invoices and credit notes are written as XML.');
  if (!number?.trim()) throw Invalid.field('number', 'The paper has no number yet: issue it first.');
  if (!issued) throw Invalid.field('issued', 'The paper has no date yet: issue it first.');
  if (lines.length === 0) throw Invalid.field('lines', 'The paper has no line.');
  return { number, issued, code, lines };
};
