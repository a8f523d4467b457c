import { NotFound } from '../../../domain/kernel/errors.js';
import type { InvoiceChoices } from '../../../domain/papers/invoice/invoice-choices.js';
import { InvoiceDraftRow } from '../../rows/papers/invoice-draft.row.js';
import type { Reading, Writing } from '../../session.js';
import { invoiceChoicesOf } from './invoice-text.js';
import { documentText } from './quote-text.js';

/** An invoice or credit note in the making. */
export type KeptInvoiceDraft = {
  readonly id: string;
  readonly version: number;
  readonly commissionId: string | undefined;
  /** Who pays. */
  readonly clientId: string;
  /** The issued invoice a credit note mends. */
  readonly credits: string | undefined;
  /** The numbers of the quotes it rests on. */
  readonly quotes: readonly string[];
  readonly choices: InvoiceChoices;
};

/** The book of invoices in the making. */
export const invoiceDraftBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<KeptInvoiceDraft> {
    const row = await reading.manager.findOneBy(InvoiceDraftRow, { id });
    if (!row) throw new NotFound('draft of an invoice; it may have been issued');
    return draftOf(row);
  },

  /** A commission's drafts, newest first. */
  async ofCommission(reading: Reading, commissionId: string): Promise<KeptInvoiceDraft[]> {
    const rows = await reading.manager.find(InvoiceDraftRow, {
      where: { commission_id: commissionId },
      order: { id: 'DESC' },
    });
    return rows.map(draftOf);
  },

  /** Every draft, oldest first: what could be issued together. */
  async all(reading: Reading, most: number): Promise<KeptInvoiceDraft[]> {
    const rows = await reading.manager.find(InvoiceDraftRow, { order: { id: 'ASC' }, take: most });
    return rows.map(draftOf);
  },

  async begin(writing: Writing, draft: Omit<KeptInvoiceDraft, 'id' | 'version'>): Promise<KeptInvoiceDraft> {
    const { choices, quotes } = draft;
    return draftOf(
      await writing.insert(InvoiceDraftRow, {
        id: writing.newId(),
        commission_id: draft.commissionId ?? null,
        client_id: draft.clientId,
        kind: choices.kind,
        credits: draft.credits ?? null,
        choices: documentText({ quotes, choices }),
      }),
    );
  },

  /** @throws Stale when it has changed since `seen` */
  async choose(
    writing: Writing,
    { id, quotes }: KeptInvoiceDraft,
    choices: InvoiceChoices,
    seen?: number,
  ): Promise<KeptInvoiceDraft> {
    const text = documentText({ quotes, choices });
    return draftOf(await writing.update(InvoiceDraftRow, id, { kind: choices.kind, choices: text }, seen));
  },

  /** @throws Stale when it has changed since `seen` */
  async remove(writing: Writing, id: string, seen?: number): Promise<void> {
    await writing.remove(InvoiceDraftRow, id, seen);
  },
};

const draftOf = (row: InvoiceDraftRow): KeptInvoiceDraft => {
  const kept = JSON.parse(row.choices) as { quotes: string[]; choices: unknown };
  return {
    id: row.id,
    version: row.version,
    commissionId: row.commission_id ?? undefined,
    clientId: row.client_id,
    credits: row.credits ?? undefined,
    quotes: kept.quotes,
    choices: invoiceChoicesOf(kept.choices),
  };
};
