import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { FittingRow } from './fitting.row.js';

/** One row of a fitting's correction table. */
@Entity('correction')
@Index('ix_correction_fitting', ['fitting_id', 'line'])
@Index('ix_correction_garment', ['garment_id', 'fitting_id'])
export class CorrectionRow {
  @Key('correction') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => FittingRow, { name: 'fk_correction_fitting' }) fitting_id!: string;
  @Text() garment_id!: string;
  /** Its place in the table, from 1. */
  @Whole() line!: number;
  /** Where on the garment. */
  @Text() place!: string;
  @Text() direction!: string;
  /** As typed, with its unit; empty where no length says it. */
  @Text() amount!: string;
  /** Exact millimetres. */
  @OptionalText() mm!: string | null;
}
