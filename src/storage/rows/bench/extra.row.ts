import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Minor, OptionalText, Text, Whole } from '../columns.js';
import { CommissionRow } from '../commissions/commission.row.js';

/** A departure from a plan that was offered, agreed or given. Answered once; mended by another that takes it back. */
@Entity('extra')
@Index('ux_extra_number', ['commission_id', 'number'], { unique: true })
@Index('ix_extra_garment', ['garment_id', 'number'])
export class ExtraRow {
  @Key('extra') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => CommissionRow, { name: 'fk_extra_commission' }) commission_id!: string;
  /** No foreign key: a garment may leave its commission, what was agreed about it may not. */
  @Text() garment_id!: string;
  @Whole() number!: number;
  @Text() cause!: string;
  /** `charged` or `compliments`. */
  @Text() kind!: string;
  @Text() wording!: string;
  @Text() currency!: string;
  @Minor() price!: number;
  /** `none`: the price is before tax; `tax`: with it. */
  @Text() prices_include!: string;
  @Text() tax_category!: string;
  @OptionalText() tax_rate!: string | null;
  /** Operations, materials and expenses with their signs, JSON. */
  @Text() work!: string;
  @OptionalText() due_before!: string | null;
  @OptionalText() due_after!: string | null;
  @OptionalText() takes_back_id!: string | null;
  @Text() offered_on!: string;
  /** `offered`, `agreed`, `declined` or `withdrawn`. */
  @Text() state!: string;
  @OptionalText() answered_on!: string | null;
  @Text() by_whom!: string;
  @Text() how!: string;
  @Text() words!: string;
  @Text() written_at!: string;
}
