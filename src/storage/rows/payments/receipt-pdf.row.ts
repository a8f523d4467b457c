import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { ReceiptRow } from './receipt.row.js';

/** The bytes of a receipt, under its key, so that lists never read them. */
@Entity('receipt_pdf')
export class ReceiptPdfRow {
  @Key('receipt_pdf') @ForeignKey(() => ReceiptRow, { name: 'fk_receipt_pdf_receipt' }) id!: string;
  @Whole() version!: number;
  /** Base64. */
  @Text() bytes!: string;
}
