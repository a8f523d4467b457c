import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';
import { CommissionRow } from '../commissions/commission.row.js';

/** An invoice, credit note or receipt as it was issued. Nothing in it ever changes. */
@Entity('invoice')
@Index('ux_invoice_number', ['number'], { unique: true })
@Index('ix_invoice_commission', ['commission_id', 'id'])
@Index('ix_invoice_client', ['client_id', 'id'])
export class InvoiceRow {
  @Key('invoice') id!: string;
  @Whole() version!: number;
  /** None for a paper that belongs to no commission. */
  @OptionalText() @ForeignKey(() => CommissionRow, { name: 'fk_invoice_commission' }) commission_id!:
    | string
    | null;
  /** Who pays. */
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_invoice_client' }) client_id!: string;
  /** As it stood on that day. */
  @Text() client_name!: string;
  @Text() title!: string;
  /** A kind of paper of the domain, such as `deposit-invoice` or `credit-note`. */
  @Text() kind!: string;
  @Text() number!: string;
  /** The series it was counted in, such as `invoice/2026`. */
  @Text() series!: string;
  /** Folded for finding. */
  @Text() folded!: string;
  @Text() issued_on!: string;
  @OptionalText() due_on!: string | null;
  @Text() issued_at!: string;
  @Text() currency!: string;
  /** BT-110: the tax stated. */
  @Minor() tax!: number;
  /** BT-112 + BT-114: what it adds to what is owed, or takes off it when it is a credit note. */
  @Minor() total!: number;
  /** BT-115: what is still asked for on it, what was paid before taken off. */
  @Minor() payable!: number;
  /** BCP 47: the language it was written in. */
  @Text() language!: string;
  /** What it was made of, its business terms, its words and what it rests on. JSON. */
  @Text() document!: string;
  /** Of the PDF's bytes, hexadecimal. */
  @Text() sha256!: string;
}
