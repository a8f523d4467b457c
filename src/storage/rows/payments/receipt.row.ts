import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { PaymentRow } from './payment.row.js';

/** A receipt as it was written for a payment. Nothing in it ever changes. */
@Entity('receipt')
@Index('ux_receipt_number', ['number'], { unique: true })
@Index('ix_receipt_payment', ['payment_id'])
export class ReceiptRow {
  @Key('receipt') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => PaymentRow, { name: 'fk_receipt_payment' }) payment_id!: string;
  @Text() number!: string;
  @Text() issued_on!: string;
  @Text() issued_at!: string;
  /** Its words, JSON. */
  @Text() document!: string;
  /** Of the PDF's bytes, hexadecimal. */
  @Text() sha256!: string;
}
