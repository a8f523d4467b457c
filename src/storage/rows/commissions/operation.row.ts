import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole, YesNo } from '../columns.js';
import { GarmentRow } from './garment.row.js';

/** One line of a making plan. */
@Entity('operation')
@Index('ix_operation_garment', ['garment_id', 'place'])
export class OperationRow {
  @Key('operation') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => GarmentRow, { name: 'fk_operation_garment' }) garment_id!: string;
  @Whole() place!: number;
  @Text() kind!: string;
  @Text() name!: string;
  @Text() stage!: string;
  @Text() mode!: string;
  /** JSON: [{ mode, share }]; empty when all minutes are in `mode`. */
  @Text() mode_shares!: string;
  @YesNo() basting!: boolean;
  @Text() driver!: string;
  @Text() quantity!: string;
  @Text() fixed_minutes!: string;
  @Text() minutes_per_unit!: string;
  @YesNo() needs_minutes!: boolean;
  @OptionalText() starting_spread!: string | null;
  @YesNo() from_starting_values!: boolean;
  /** JSON of the hand seam it is reckoned from. */
  @OptionalText() hand_stitch!: string | null;
  @YesNo() shown_to_client!: boolean;
  @Text() client_wording!: string;
}
