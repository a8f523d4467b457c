import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';
import { InvoiceRow } from '../papers/invoice.row.js';
import { PaymentRow } from './payment.row.js';

/** What money went to: an invoice, or a refund. Rows are added, never changed; a negative one takes an earlier one back. */
@Entity('allocation')
@Index('ix_allocation_client', ['client_id', 'id'])
@Index('ix_allocation_payment', ['payment_id'])
@Index('ix_allocation_invoice', ['invoice_id'])
export class AllocationRow {
  @Key('allocation') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_allocation_client' }) client_id!: string;
  @Text() @ForeignKey(() => PaymentRow, { name: 'fk_allocation_payment' }) payment_id!: string;
  @OptionalText() @ForeignKey(() => InvoiceRow, { name: 'fk_allocation_invoice' }) invoice_id!: string | null;
  @OptionalText() @ForeignKey(() => PaymentRow, { name: 'fk_allocation_refund' }) refund_id!: string | null;
  @Minor() amount!: number;
  @Text() written_at!: string;
}
