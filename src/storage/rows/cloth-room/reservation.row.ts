import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { LotRow } from './lot.row.js';
import { MaterialRow } from './material.row.js';

/** So much of a material, or of one lot, promised to a garment. */
@Entity('reservation')
@Index('ix_reservation_material', ['material_id', 'id'])
@Index('ix_reservation_commission', ['commission_id'])
export class ReservationRow {
  @Key('reservation') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => MaterialRow, { name: 'fk_reservation_material' }) material_id!: string;
  @OptionalText() @ForeignKey(() => LotRow, { name: 'fk_reservation_lot' }) lot_id!: string | null;
  @Text() commission_id!: string;
  @Text() garment_id!: string;
  @OptionalText() line_id!: string | null;
  @Text() quantity!: string;
  @Text() note!: string;
}
