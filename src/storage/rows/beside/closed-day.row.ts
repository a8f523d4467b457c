import { Entity, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** A day on which the workroom is closed. */
@Entity('closed_day')
@Index('ix_closed_day_span', ['span_id'])
@Index('ux_closed_day_day', ['on_day'], { unique: true })
export class ClosedDayRow {
  @Key('closed_day') id!: string;
  @Whole() version!: number;
  @Text() on_day!: string;
  @Text() words!: string;
  /** Days that were closed together. */
  @Text() span_id!: string;
}
