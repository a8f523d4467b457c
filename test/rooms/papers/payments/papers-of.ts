import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { Money } from '../../../../src/domain/kernel/money.js';
import { clientBook } from '../../../../src/storage/books/client-book.js';
import { type InvoiceKind, invoiceBook } from '../../../../src/storage/books/papers/invoice-book.js';
import type { TestStudio } from '../../../support/studio.js';

/** A client of the studio. */
export const aClient = async (
  studio: TestStudio,
  name: string,
  paperLanguage: '' | 'fr' | 'de' = '',
): Promise<string> => {
  const made = await studio.api('POST', '/api/clients', {
    name,
    address: 'Hive House\nQuillmere',
    country: 'IE',
  });
  expect([made.status, made.text]).toEqual([201, expect.any(String)]);
  const { id } = made.json();
  if (paperLanguage)
    await studio.unit.write(studio.visit, async (writing) => {
      const client = await clientBook.one(writing, id);
      await clientBook.correct(writing, id, { ...client, paperLanguage });
      writing.says('Chose a language', `client/${id}`);
    });
  return id;
};

/** An issued paper, put straight into its book: how it comes to be issued is tested with invoices. */
export const issued = async (
  studio: TestStudio,
  clientId: string,
  number: string,
  amount: string,
  more: {
    kind?: InvoiceKind;
    issuedOn?: string;
    dueOn?: string;
    cites?: string[];
    commissionId?: string;
    currency?: string;
  } = {},
): Promise<string> => {
  const { issuedOn = '2026-02-02', dueOn = '2026-02-16', currency = 'EUR' } = more;
  const total = Money.parse(amount, currency);
  const { value } = await studio.unit.write(studio.visit, async (writing) => {
    const { name } = await clientBook.one(writing, clientId);
    const id = await invoiceBook.add(writing, {
      commissionId: more.commissionId,
      clientId,
      clientName: name,
      title: 'A test',
      kind: more.kind ?? 'invoice',
      number,
      issuedOn,
      dueOn,
      tax: Money.zero(currency),
      total,
      payable: total,
      language: 'en',
      sha256: '0'.repeat(64),
      cites: more.cites ?? [],
      document: '{}',
      series: 'test',
      pdf: new Uint8Array([37, 80, 68, 70]),
      foundBy: '',
    });
    writing.says(`Issued ${number}`, `paper/${id}`);
    return id;
  });
  return value;
};

/** Sends a form that is expected to be accepted. @returns where it led */
export const pressed = async (
  studio: TestStudio,
  url: string,
  fields: Record<string, string>,
): Promise<string> => {
  const sent = await studio.post(url, { once: randomUUID(), ...fields });
  expect([sent.status, wordsOf(sent.text)]).toEqual([303, '']);
  return String(sent.headers.location).replace(/\?.*$/, '');
};

export const refused = async (
  studio: TestStudio,
  url: string,
  fields: Record<string, string>,
  status = 422,
): Promise<string> => {
  const sent = await studio.post(url, { once: randomUUID(), ...fields });
  expect([sent.status, wordsOf(sent.text).slice(0, 200)]).toEqual([status, expect.any(String)]);
  return `${wordsOf(sent.text)} ${[...sent.text.matchAll(/ value="([^"]*)"/g)].map(([, value]) => value).join(' ')}`;
};

/** A page's words. */
export const wordsOf = (html: string): string =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/&#x27;|&#39;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&')
    .replace(/\s+/g, ' ')
    .trim();
