import { Entity, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** Somebody cloth and trimmings are bought from. */
@Entity('supplier')
@Index('ix_supplier_folded', ['folded', 'id'])
export class SupplierRow {
  @Key('supplier') id!: string;
  @Whole() version!: number;
  @Text() name!: string;
  /** Folded for finding. */
  @Text() folded!: string;
  @Text() address!: string;
  @Text() email!: string;
  @Text() phone!: string;
  @Text() notes!: string;
}
