import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';
import { MaterialRow } from './material.row.js';

/** One movement of one material. Rows are added, never changed; a wrong one is reversed by another. */
@Entity('stock_entry')
@Index('ix_stock_entry_material', ['material_id', 'id'])
@Index('ix_stock_entry_commission', ['commission_id', 'id'])
@Index('ix_stock_entry_of', ['of_id'])
@Index('ix_stock_entry_purchase', ['purchase_id'])
export class StockEntryRow {
  @Key('stock_entry') id!: string;
  @Whole() version!: number;
  @Text() kind!: string;
  @Text() @ForeignKey(() => MaterialRow, { name: 'fk_stock_entry_material' }) material_id!: string;
  @Text() on_day!: string;
  @Text() written_at!: string;
  @Text() who!: string;
  /** In is above nought, out below. */
  @Text() quantity!: string;
  @Minor() cost!: number;
  /** Names stand beside the keys: a garment may be taken out of its commission, its cost may not. */
  @OptionalText() commission_id!: string | null;
  @OptionalText() garment_id!: string | null;
  @Text() garment_name!: string;
  @OptionalText() line_id!: string | null;
  @OptionalText() purchase_id!: string | null;
  /** The entry it returns from, was cut off from or reverses. */
  @OptionalText() of_id!: string | null;
  @Text() reason!: string;
}
