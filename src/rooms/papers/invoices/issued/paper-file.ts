import { Conflict } from '../../../../domain/kernel/errors.js';
import { ciiOf } from '../../../../printing/exchange/cii/cii.js';
import { ublOf } from '../../../../printing/exchange/ubl/ubl.js';
import type { InvoiceSheet } from '../../../../printing/papers/invoice-sheet.js';
import { clientBook } from '../../../../storage/books/client-book.js';
import { type IssuedInvoice, invoiceBook } from '../../../../storage/books/papers/invoice-book.js';
import { invoiceDocumentOf } from '../../../../storage/books/papers/invoice-text.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import type { Reading } from '../../../../storage/session.js';
import { file, type Reply } from '../../../../web/reply.js';

/** The files an issued invoice can be had as, by what stands behind its id. */
const ENDINGS = ['.with-data.pdf', '.pdf', '.ubl.xml', '.cii.xml', '.eml'] as const;

/** Splits `0190….ubl.xml` into the id and the ending; the ending is '' for the page. */
export const endingOf = (asked: string): { id: string; ending: (typeof ENDINGS)[number] | '' } => {
  const ending = ENDINGS.find((one) => asked.endsWith(one)) ?? '';
  return { id: asked.slice(0, asked.length - ending.length), ending };
};

/** An issued invoice as a file: the bytes that went out, or its data in an open syntax. @throws NotFound */
export const invoiceFile = async (
  reading: Reading,
  id: string,
  ending: (typeof ENDINGS)[number],
): Promise<Reply> => {
  const paper = await invoiceBook.one(reading, id);
  const name = `${paper.number.replace(/[/\\]/g, '-')}${ending}`;
  if (ending === '.pdf') return file(await invoiceBook.pdf(reading, id), 'application/pdf', name, true);
  if (ending === '.eml') return messageWith(reading, paper);
  const terms = invoiceDocumentOf(paper).paper;
  if (ending === '.with-data.pdf') {
    // What is seldom asked for and costs a start dearly is loaded by the first who asks.
    const { withAttachedXml } = await import('../../../../printing/exchange/pdf/attached-xml.js');
    const at = paper.issuedAt;
    const bytes = await withAttachedXml(await invoiceBook.pdf(reading, id), ciiOf(terms), { at });
    return file(bytes, 'application/pdf', name);
  }
  return file(ending === '.ubl.xml' ? ublOf(terms) : ciiOf(terms), 'application/xml', name);
};

/** A message to the client with the paper, ready to be looked at and sent from the maker's own mail program. */
const messageWith = async (reading: Reading, paper: IssuedInvoice): Promise<Reply> => {
  const { identity } = await studioBook.the(reading);
  if (!identity.email)
    throw new Conflict('The house has no mail address to write from. Give it one in House.', 'no-address');
  const client = await clientBook.one(reading, paper.clientId);
  const { sheet } = JSON.parse(paper.document) as { sheet: InvoiceSheet };
  const subject = `${sheet.title} ${paper.number}`;
  const { emlOf } = await import('../../../../printing/exchange/message.js');
  const bytes = await emlOf({
    from: { name: identity.name, address: identity.email },
    to: client.email ? [{ name: client.name, address: client.email }] : [],
    subject: `${subject}, ${identity.name}`,
    text: [
      subject,
      ...sheet.particulars.map(({ label, words }) => `${label}: ${words}`),
      `${sheet.due.label}: ${sheet.due.amount}`,
      '',
      identity.maker,
      identity.name,
    ].join('\n'),
    attachments: [
      {
        name: `${paper.number.replace(/[/\\]/g, '-')}.pdf`,
        type: 'application/pdf',
        bytes: await invoiceBook.pdf(reading, paper.id),
      },
    ],
    date: paper.issuedAt,
    id: `paper-${paper.id}@${identity.email.split('@').at(-1) ?? 'workroom'}`,
  });
  return file(bytes, 'message/rfc822', `${paper.number.replace(/[/\\]/g, '-')}.eml`);
};
