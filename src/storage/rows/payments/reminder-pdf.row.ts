import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { ReminderRow } from './reminder.row.js';

/** The bytes of a reminder, under its key, so that lists never read them. */
@Entity('reminder_pdf')
export class ReminderPdfRow {
  @Key('reminder_pdf') @ForeignKey(() => ReminderRow, { name: 'fk_reminder_pdf_reminder' }) id!: string;
  @Whole() version!: number;
  /** Base64. */
  @Text() bytes!: string;
}
