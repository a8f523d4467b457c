import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole, YesNo } from '../columns.js';
import { SupplierRow } from './supplier.row.js';

/** Something the workroom uses, of which it keeps lots. */
@Entity('material')
@Index('ix_material_folded', ['folded', 'id'])
export class MaterialRow {
  @Key('material') id!: string;
  @Whole() version!: number;
  @Text() name!: string;
  /** Folded for finding. */
  @Text() folded!: string;
  @Text() kind!: string;
  @Text() unit!: string;
  /** As typed, and in millimetres; both empty when nobody said. */
  @Text() width!: string;
  @Text() width_mm!: string;
  @Text() fibres!: string;
  @Text() care!: string;
  @Text() pattern_repeat!: string;
  @Text() pattern_repeat_mm!: string;
  @YesNo() has_nap!: boolean;
  @OptionalText() @ForeignKey(() => SupplierRow, { name: 'fk_material_supplier' }) supplier_id!:
    | string
    | null;
  @Text() place!: string;
  /** `lot`, `first-in-first-out` or `weighted-average`. */
  @Text() method!: string;
  @Text() notes!: string;
}
