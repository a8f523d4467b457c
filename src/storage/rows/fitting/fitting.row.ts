import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole, YesNo } from '../columns.js';
import { CommissionRow } from '../commissions/commission.row.js';

/** A fitting: planned, held, missed or put off. */
@Entity('fitting')
@Index('ix_fitting_commission', ['commission_id', 'on_day'])
@Index('ix_fitting_day', ['on_day', 'at_time'])
export class FittingRow {
  @Key('fitting') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => CommissionRow, { name: 'fk_fitting_commission' }) commission_id!: string;
  @Text() kind!: string;
  @Text() on_day!: string;
  /** HH:MM in the studio's zone. */
  @Text() at_time!: string;
  @Whole() minutes!: number;
  @Text() state!: string;
  @Text() present!: string;
  @Text() worn!: string;
  @Text() guardian!: string;
  @Text() notes!: string;
  @Text() reason!: string;
  @YesNo() pattern_changed!: boolean;
  @Text() pattern_words!: string;
  /** The fitting that follows from it. */
  @OptionalText() next_id!: string | null;
  @Text() changed_at!: string;
}
