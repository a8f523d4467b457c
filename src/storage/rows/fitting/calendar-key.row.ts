import { Entity, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';

/** A secret address of the calendar. Only the SHA-256 of its secret is kept. */
@Entity('calendar_key')
@Index('ux_calendar_key_hash', ['secret_hash'], { unique: true })
export class CalendarKeyRow {
  @Key('calendar_key') id!: string;
  @Whole() version!: number;
  /** Where it is read: "telephone". */
  @Text() name!: string;
  @Text() secret_hash!: string;
  @Text() made_by!: string;
  @Text() made_at!: string;
  @OptionalText() revoked_at!: string | null;
}
