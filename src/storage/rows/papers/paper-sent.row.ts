import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { InvoiceRow } from './invoice.row.js';

/** That a paper was sent: when, to whom, how, and which bytes. Rows are added, never changed. */
@Entity('paper_sent')
@Index('ix_paper_sent_paper', ['paper_id', 'id'])
export class PaperSentRow {
  @Key('paper_sent') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => InvoiceRow, { name: 'fk_paper_sent_invoice' }) paper_id!: string;
  /** The day it went out, in the studio's zone. */
  @Text() sent_on!: string;
  @Text() to_whom!: string;
  /** `by mail`, `by post`, `by hand`. */
  @Text() how!: string;
  /** SHA-256 of what was sent. */
  @Text() sha256!: string;
  @Text() written_at!: string;
}
