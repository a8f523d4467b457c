import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { IssuedQuoteRow } from './issued-quote.row.js';

/** The bytes that went out, under the key of their quote, so that lists never read them. */
@Entity('quote_pdf')
export class QuotePdfRow {
  @Key('quote_pdf') @ForeignKey(() => IssuedQuoteRow, { name: 'fk_quote_pdf_issued_quote' }) id!: string;
  @Whole() version!: number;
  /** Base64. */
  @Text() bytes!: string;
}
