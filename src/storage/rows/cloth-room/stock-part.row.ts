import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Minor, Text, Whole } from '../columns.js';
import { LotRow } from './lot.row.js';
import { StockEntryRow } from './stock-entry.row.js';

/** What one movement did to one lot. Rows are added, never changed. */
@Entity('stock_part')
@Index('ix_stock_part_entry', ['entry_id'])
@Index('ix_stock_part_lot', ['lot_id', 'id'])
export class StockPartRow {
  @Key('stock_part') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => StockEntryRow, { name: 'fk_stock_part_stock_entry' }) entry_id!: string;
  @Text() @ForeignKey(() => LotRow, { name: 'fk_stock_part_lot' }) lot_id!: string;
  @Text() quantity!: string;
  @Minor() cost!: number;
}
