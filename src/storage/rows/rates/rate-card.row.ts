import { Entity, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** What an hour costs from a day on; never changed, a later row takes its place. */
@Entity('rate_card')
@Index('ix_rate_card_from', ['from_day', 'id'])
export class RateCardRow {
  @Key('rate_card') id!: string;
  @Whole() version!: number;
  @Text() from_day!: string;
  /** The answers it is worked out from, as JSON with decimals and amounts as text. */
  @Text() workings!: string;
}
