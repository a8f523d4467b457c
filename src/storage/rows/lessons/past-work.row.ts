import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { PastGarmentRow } from './past-garment.row.js';

/** The operations of one garment made before the program was there, where they are known. */
@Entity('past_work')
@Index('ux_past_work_garment', ['garment_id'], { unique: true })
export class PastWorkRow {
  @Key('past_work') id!: string;
  @Whole() version!: number;
  @ForeignKey(() => PastGarmentRow, { name: 'fk_past_work_past_garment' })
  @Text()
  garment_id!: string;
  /** As `pastWorkText` writes it. */
  @Text() document!: string;
}
