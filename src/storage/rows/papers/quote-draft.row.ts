import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { CommissionRow } from '../commissions/commission.row.js';
import { IssuedQuoteRow } from './issued-quote.row.js';

/** A quote not yet issued: it has no number of its own and may change or go. */
@Entity('quote_draft')
@Index('ix_quote_draft_commission', ['commission_id', 'id'])
export class QuoteDraftRow {
  @Key('quote_draft') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => CommissionRow, { name: 'fk_quote_draft_commission' }) commission_id!: string;
  /** The number it will be the next version of; none for a quote of its own. */
  @OptionalText() number!: string | null;
  /** The issued version whose prices it keeps; none when it is priced as the commission stands. */
  @OptionalText() @ForeignKey(() => IssuedQuoteRow, { name: 'fk_quote_draft_prices_of' }) prices_of!:
    | string
    | null;
  /** What was chosen, JSON. */
  @Text() choices!: string;
}
