import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { GarmentTypeRow } from '../making/garment-type.row.js';

/** One garment made before the program was there: what it took in all. */
@Entity('past_garment')
@Index('ix_past_garment_type', ['type_id', 'id'])
export class PastGarmentRow {
  @Key('past_garment') id!: string;
  @Whole() version!: number;
  @ForeignKey(() => GarmentTypeRow, { name: 'fk_past_garment_garment_type' })
  @Text()
  type_id!: string;
  @Text() hours!: string;
  @OptionalText() planned_hours!: string | null;
  @OptionalText() finished_on!: string | null;
  @Text() note!: string;
}
