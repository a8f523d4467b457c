import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Minor, Text, Whole, YesNo } from '../columns.js';
import { SupplierRow } from './supplier.row.js';

/** One delivery that was paid for, or will be. Nothing in it ever changes; its lots hold its lines. */
@Entity('purchase')
@Index('ix_purchase_supplier', ['supplier_id', 'id'])
export class PurchaseRow {
  @Key('purchase') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => SupplierRow, { name: 'fk_purchase_supplier' }) supplier_id!: string;
  @Text() bought_on!: string;
  /** The number on the supplier's paper. */
  @Text() paper_number!: string;
  /** The order it delivers, or a part of it. */
  @Text() order_number!: string;
  @Text() currency!: string;
  /** Σ lines before anything is shared. */
  @Minor() goods!: number;
  @Minor() freight!: number;
  @Minor() duty!: number;
  @Minor() tax!: number;
  @YesNo() tax_recoverable!: boolean;
  /** `value` or `quantity`. */
  @Text() shared_by!: string;
  @Text() notes!: string;
  @Text() written_at!: string;
}
