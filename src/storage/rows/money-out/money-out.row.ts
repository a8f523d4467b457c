import { Entity, ForeignKey, Index } from 'typeorm';
import { OutworkTicketRow } from '../beside/outwork-ticket.row.js';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';

/** One bill that is not cloth. Nothing in it ever changes; a wrong one is reversed by another below nought. */
@Entity('money_out')
@Index('ix_money_out_day', ['on_day', 'id'])
@Index('ix_money_out_garment', ['garment_id'])
@Index('ix_money_out_ticket', ['ticket_id'])
@Index('ux_money_out_of', ['of_id'], { unique: true })
export class MoneyOutRow {
  @Key('money_out') id!: string;
  @Whole() version!: number;
  @Text() kind!: string;
  @Text() on_day!: string;
  @Text() currency!: string;
  /** What it costs: without the tax that comes back. */
  @Minor() amount!: number;
  /** Tax that comes back. */
  @Minor() tax!: number;
  @Text() payee!: string;
  @Text() paper_number!: string;
  @Text() what!: string;
  /** The name stands beside the keys: a garment may be taken out of its commission, its cost may not. */
  @OptionalText() commission_id!: string | null;
  @OptionalText() garment_id!: string | null;
  @Text() garment_name!: string;
  @OptionalText()
  @ForeignKey(() => OutworkTicketRow, { name: 'fk_money_out_outwork_ticket' })
  ticket_id!: string | null;
  @OptionalText() of_id!: string | null;
  @Text() reason!: string;
  @Text() written_at!: string;
}
