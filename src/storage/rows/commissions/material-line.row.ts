import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole, YesNo } from '../columns.js';
import { GarmentRow } from './garment.row.js';

/** A material a garment is planned to take. */
@Entity('material_line')
@Index('ix_material_line_garment', ['garment_id', 'place'])
export class MaterialLineRow {
  @Key('material_line') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => GarmentRow, { name: 'fk_material_line_garment' }) garment_id!: string;
  @Whole() place!: number;
  @Text() name!: string;
  @Text() quantity!: string;
  @Text() unit!: string;
  /** Money per unit, decimal text; may have more decimals than the currency. */
  @Text() unit_cost!: string;
  @Text() waste_share!: string;
  /** Waste as a share of the `net` or the `gross` quantity. */
  @Text() waste_of!: string;
  @YesNo() handling!: boolean;
  @OptionalText() replacement_unit_cost!: string | null;
  /** `cost`, `replacement` or `nil`. */
  @Text() charge_at!: string;
  @YesNo() shown_to_client!: boolean;
  @Text() client_wording!: string;
}
