import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, Text, Whole } from '../columns.js';

/** A reminder as it went out: what it named, when, to whom, how, and which bytes. Nothing in it ever changes. */
@Entity('reminder')
@Index('ix_reminder_client', ['client_id', 'id'])
export class ReminderRow {
  @Key('reminder') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_reminder_client' }) client_id!: string;
  /** 1, or 2 for a second one. */
  @Whole() which!: number;
  /** The day it went out, in the studio's zone. */
  @Text() sent_on!: string;
  @Text() to_whom!: string;
  /** `by mail`, `by post`, `by hand`. */
  @Text() how!: string;
  /** Numbers of the papers it names, JSON. */
  @Text() papers!: string;
  /** Its words, JSON. */
  @Text() document!: string;
  /** Of the PDF's bytes, hexadecimal. */
  @Text() sha256!: string;
  @Text() written_at!: string;
}
