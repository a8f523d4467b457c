import { Entity, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** A bill has been paid, `purchase/0190…` or `money-out/0190…`, or a supplier's credit settled, `sent-back/0190…`. */
@Entity('paid_out')
@Index('ux_paid_out_about', ['about'], { unique: true })
export class PaidOutRow {
  @Key('paid_out') id!: string;
  @Whole() version!: number;
  @Text() about!: string;
  @Text() paid_on!: string;
  @Text() how!: string;
}
