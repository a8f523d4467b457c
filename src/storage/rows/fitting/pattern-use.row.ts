import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { PatternRow } from './pattern.row.js';

/** The pattern a garment is cut from: at most one; the key is the garment's. */
@Entity('pattern_use')
@Index('ix_pattern_use_pattern', ['pattern_id'])
export class PatternUseRow {
  /** The garment. */
  @Key('pattern_use') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => PatternRow, { name: 'fk_pattern_use_pattern' }) pattern_id!: string;
}
