import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { CommissionRow } from '../commissions/commission.row.js';
import { InvoiceRow } from './invoice.row.js';

/** An invoice or credit note not yet issued: it has no number and may change or go. */
@Entity('invoice_draft')
@Index('ix_invoice_draft_commission', ['commission_id', 'id'])
export class InvoiceDraftRow {
  @Key('invoice_draft') id!: string;
  @Whole() version!: number;
  @OptionalText() @ForeignKey(() => CommissionRow, { name: 'fk_invoice_draft_commission' }) commission_id!:
    | string
    | null;
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_invoice_draft_client' }) client_id!: string;
  @Text() kind!: string;
  /** The issued paper a credit note mends. */
  @OptionalText() @ForeignKey(() => InvoiceRow, { name: 'fk_invoice_draft_credits' }) credits!: string | null;
  /** Its lines and what else was chosen, JSON. */
  @Text() choices!: string;
}
