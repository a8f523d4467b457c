import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';
import { CommissionRow } from '../commissions/commission.row.js';

/** One version of a quote as it was issued. Nothing in it ever changes. */
@Entity('issued_quote')
@Index('ux_issued_quote_number', ['number', 'edition'], { unique: true })
@Index('ix_issued_quote_commission', ['commission_id', 'id'])
export class IssuedQuoteRow {
  @Key('issued_quote') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => CommissionRow, { name: 'fk_issued_quote_commission' }) commission_id!: string;
  /** To whom it was addressed. */
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_issued_quote_client' }) client_id!: string;
  @Text() number!: string;
  /** Its version under that number, from 1. */
  @Whole() edition!: number;
  @Text() client_name!: string;
  @Text() title!: string;
  /** Folded for finding. */
  @Text() folded!: string;
  @Text() issued_on!: string;
  @OptionalText() valid_until!: string | null;
  @Text() issued_at!: string;
  @Text() currency!: string;
  /** What it comes to with tax. */
  @Minor() total!: number;
  /** The paper: what it was made of, its business terms, and its words. JSON. */
  @Text() document!: string;
  /** The studio's side: cost sheets, rates and choices it rests on. JSON. */
  @Text() costs!: string;
  /** Of the PDF's bytes, hexadecimal. */
  @Text() sha256!: string;
}
