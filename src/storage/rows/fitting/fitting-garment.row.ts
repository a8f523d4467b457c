import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { FittingRow } from './fitting.row.js';

/** A garment that is tried on at a fitting. */
@Entity('fitting_garment')
@Index('ix_fitting_garment_fitting', ['fitting_id'])
@Index('ix_fitting_garment_garment', ['garment_id', 'fitting_id'])
export class FittingGarmentRow {
  @Key('fitting_garment') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => FittingRow, { name: 'fk_fitting_garment_fitting' }) fitting_id!: string;
  @Text() garment_id!: string;
}
