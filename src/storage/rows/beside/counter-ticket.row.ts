import { Entity, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';

/** Work over the counter: what came in, what is to be done, collected or not. */
@Entity('counter_ticket')
@Index('ix_counter_ticket_collected', ['collected_on', 'id'])
@Index('ux_counter_ticket_number', ['number'], { unique: true })
export class CounterTicketRow {
  @Key('counter_ticket') id!: string;
  @Whole() version!: number;
  @Text() number!: string;
  @Text() came_on!: string;
  @Text() name!: string;
  @Text() reached_at!: string;
  @Text() what!: string;
  /** The state it came in. */
  @Text() found!: string;
  @Text() currency!: string;
  /** A document: list of {job, price}, the price as a decimal. */
  @Text() lines!: string;
  @OptionalText() ready_by!: string | null;
  @OptionalText() ready_on!: string | null;
  @OptionalText() collected_on!: string | null;
  @Text() collected_by!: string;
  @Text() notes!: string;
  @Text() folded!: string;
}
