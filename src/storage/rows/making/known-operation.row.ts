import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole, YesNo } from '../columns.js';
import { GarmentTypeRow } from './garment-type.row.js';

/** An operation the studio knows for a garment type: a starting value, or its own. */
@Entity('known_operation')
@Index('ix_known_operation_type', ['garment_type', 'no'])
export class KnownOperationRow {
  @Key('known_operation') id!: string;
  @Whole() version!: number;
  @Text()
  @ForeignKey(() => GarmentTypeRow, { name: 'fk_known_operation_garment_type' })
  garment_type!: string;
  @Whole() no!: number;
  @Text() kind!: string;
  @Text() name!: string;
  @Text() stage!: string;
  @Text() mode!: string;
  @Text() driver!: string;
  @Text() typical_count!: string;
  @Text() fixed_minutes!: string;
  @Text() minutes_per_unit!: string;
  @OptionalText() starting_spread!: string | null;
  @YesNo() needs_minutes!: boolean;
  @YesNo() basting!: boolean;
  @YesNo() is_alternative!: boolean;
  /** Places in the list it stands in for, with a space between. */
  @Text() instead_of!: string;
  /** Makes that choose it, with a space between. */
  @Text() makes!: string;
  @YesNo() is_menu!: boolean;
  @YesNo() from_starting_values!: boolean;
  @Text() source!: string;
}
