import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { IssuedQuoteRow } from './issued-quote.row.js';

/** What a client answered, or that an answer was put down wrongly. Rows are added, never changed. */
@Entity('quote_answer')
@Index('ix_quote_answer_quote', ['quote_id', 'id'])
export class QuoteAnswerRow {
  @Key('quote_answer') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => IssuedQuoteRow, { name: 'fk_quote_answer_issued_quote' }) quote_id!: string;
  /** `accepted`, `declined`, or `taken-back` for a correction. */
  @Text() answer!: string;
  @Text() answered_on!: string;
  @Text() by_whom!: string;
  /** `in person`, `by letter`, … */
  @Text() how!: string;
  /** Why it was declined, or why the answer is taken back. */
  @Text() words!: string;
  /** Refs of garments and options that were accepted, JSON; none means all garments and no option. */
  @OptionalText() taken!: string | null;
  /** The answer a correction takes back. */
  @OptionalText() corrects!: string | null;
  @Text() written_at!: string;
}
