import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { InvoiceRow } from './invoice.row.js';

/** The bytes that went out, under the key of their paper, so that lists never read them. */
@Entity('invoice_pdf')
export class InvoicePdfRow {
  @Key('invoice_pdf') @ForeignKey(() => InvoiceRow, { name: 'fk_invoice_pdf_invoice' }) id!: string;
  @Whole() version!: number;
  /** Base64. */
  @Text() bytes!: string;
}
