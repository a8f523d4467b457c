import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../rows/columns.js';
import { ActRow } from './act.row.js';

/** One row that an act inserted, updated or removed, with what it was and what it became. */
@Entity('change')
@Index('ix_change_act', ['act_id', 'place'])
export class ChangeRow {
  @Key('change') id!: string;
  @Text() @ForeignKey(() => ActRow, { name: 'fk_change_act' }) act_id!: string;
  /** Order within the act. */
  @Whole() place!: number;
  @Text() in_table!: string;
  @Text() row_id!: string;
  /** JSON of the row before; none when it was inserted. */
  @OptionalText() before!: string | null;
  /** JSON of the row after; none when it was removed. */
  @OptionalText() after!: string | null;
}
