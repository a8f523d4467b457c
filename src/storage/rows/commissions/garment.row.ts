import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, OptionalMinor, OptionalText, Text, Whole } from '../columns.js';
import { GarmentTypeRow } from '../making/garment-type.row.js';
import { CommissionRow } from './commission.row.js';

/** One thing to be made, altered or repaired. */
@Entity('garment')
@Index('ix_garment_commission', ['commission_id', 'place'])
@Index('ix_garment_type', ['type_id', 'id'])
export class GarmentRow {
  @Key('garment') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => CommissionRow, { name: 'fk_garment_commission' }) commission_id!: string;
  /** Its place in the commission, from 1: the large number on its docket. */
  @Whole() place!: number;
  @Text() name!: string;
  @Text() @ForeignKey(() => GarmentTypeRow, { name: 'fk_garment_garment_type' }) type_id!: string;
  @Text() make!: string;
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_garment_wearer' }) wearer_id!: string;
  @OptionalText() due_on!: string | null;
  @Text() notes!: string;
  /** Net price set by hand; none when the sum says it. */
  @OptionalMinor() own_price!: number | null;
}
