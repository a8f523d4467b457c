import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { InvoiceRow } from './invoice.row.js';

/** An earlier paper that an issued one deducts or mends (BG-3). */
@Entity('invoice_cite')
@Index('ix_invoice_cite_invoice', ['invoice_id'])
@Index('ix_invoice_cite_cited', ['cited_id'])
export class InvoiceCiteRow {
  @Key('invoice_cite') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => InvoiceRow, { name: 'fk_invoice_cite_invoice' }) invoice_id!: string;
  @Text() @ForeignKey(() => InvoiceRow, { name: 'fk_invoice_cite_cited' }) cited_id!: string;
}
