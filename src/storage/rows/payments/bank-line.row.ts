import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';
import { BankImportRow } from './bank-import.row.js';
import { PaymentRow } from './payment.row.js';

/** One line of a bank statement. It books nothing; a person makes a payment of it, or sets it aside. */
@Entity('bank_line')
@Index('ux_bank_line_fingerprint', ['fingerprint'], { unique: true })
@Index('ix_bank_line_import', ['import_id', 'id'])
@Index('ix_bank_line_payment', ['payment_id'])
export class BankLineRow {
  @Key('bank_line') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => BankImportRow, { name: 'fk_bank_line_import' }) import_id!: string;
  /** The line of the file. */
  @Whole() place!: number;
  @Text() on_day!: string;
  /** Signed: in is above nought. */
  @Minor() amount!: number;
  @Text() currency!: string;
  @Text() payer!: string;
  @Text() words!: string;
  /** Of date, amount, payer, words, and which of several alike in one file it is; SHA-256, hexadecimal. */
  @Text() fingerprint!: string;
  /** open, aside or taken. */
  @Text() standing!: string;
  @OptionalText() @ForeignKey(() => PaymentRow, { name: 'fk_bank_line_payment' }) payment_id!: string | null;
}
