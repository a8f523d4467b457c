import { Entity, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';

/** Something that happened to a garment once, or was taken back. Rows are added, never changed. */
@Entity('garment_mark')
@Index('ix_garment_mark_garment', ['garment_id', 'id'])
@Index('ix_garment_mark_commission', ['commission_id', 'id'])
@Index('ix_garment_mark_kind', ['kind', 'on_day', 'id'])
export class GarmentMarkRow {
  @Key('garment_mark') id!: string;
  @Whole() version!: number;
  /** No foreign key: a garment may leave its commission, what happened to it may not. */
  @Text() garment_id!: string;
  @Text() commission_id!: string;
  @Text() kind!: string;
  @OptionalText() operation_id!: string | null;
  @Text() on_day!: string;
  @Text() who!: string;
  @Text() words!: string;
  /** What was frozen with it, JSON; empty for none. */
  @Text() document!: string;
  /** The mark it takes back. */
  @OptionalText() of_id!: string | null;
  @Text() written_at!: string;
}
