import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';
import { CommissionRow } from '../commissions/commission.row.js';

/** Money that came in or was given back. Rows are added, never changed; a wrong one is reversed by another. */
@Entity('payment')
@Index('ix_payment_client', ['client_id', 'id'])
@Index('ix_payment_of', ['of_id'])
@Index('ix_payment_day', ['on_day'])
export class PaymentRow {
  @Key('payment') id!: string;
  @Whole() version!: number;
  /** payment, refund or reversal. */
  @Text() kind!: string;
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_payment_client' }) client_id!: string;
  /** The commission it is held for, when it came before its invoice. */
  @OptionalText() @ForeignKey(() => CommissionRow, { name: 'fk_payment_commission' }) commission_id!:
    | string
    | null;
  @Text() on_day!: string;
  /** Always above nought. */
  @Minor() amount!: number;
  @Text() currency!: string;
  /** How it was paid: by transfer, in coin, with a card. */
  @Text() how!: string;
  /** A remark, or the reason of a reversal. */
  @Text() note!: string;
  /** The payment or refund that this row reverses. */
  @OptionalText() @ForeignKey(() => PaymentRow, { name: 'fk_payment_reversed' }) of_id!: string | null;
  @Text() written_at!: string;
  @Text() who!: string;
}
