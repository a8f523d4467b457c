import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';
import { OutworkerRow } from './outworker.row.js';

/** A piece of work that went out of the house. */
@Entity('outwork_ticket')
@Index('ix_outwork_ticket_back', ['back_on', 'id'])
@Index('ix_outwork_ticket_garment', ['garment_id'])
@Index('ix_outwork_ticket_outworker', ['outworker_id', 'id'])
@Index('ux_outwork_ticket_number', ['number'], { unique: true })
export class OutworkTicketRow {
  @Key('outwork_ticket') id!: string;
  @Whole() version!: number;
  @Text() number!: string;
  @Text() @ForeignKey(() => OutworkerRow, { name: 'fk_outwork_ticket_outworker' }) outworker_id!: string;
  @Text() commission_id!: string;
  @Text() garment_id!: string;
  @Text() garment_name!: string;
  @Text() work!: string;
  @Whole() pieces!: number;
  @Text() currency!: string;
  @Minor() piece_rate!: number;
  @Text() out_on!: string;
  @OptionalText() due_on!: string | null;
  @OptionalText() back_on!: string | null;
  @OptionalText() checked_on!: string | null;
  /** What was found when it was checked. */
  @Text() found!: string;
  @Text() notes!: string;
  @Text() folded!: string;
}
