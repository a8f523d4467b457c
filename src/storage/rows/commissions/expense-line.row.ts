import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Minor, Text, Whole, YesNo } from '../columns.js';
import { GarmentRow } from './garment.row.js';

/** A direct expense a garment is planned to cause: outwork, a courier. */
@Entity('expense_line')
@Index('ix_expense_line_garment', ['garment_id', 'place'])
export class ExpenseLineRow {
  @Key('expense_line') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => GarmentRow, { name: 'fk_expense_line_garment' }) garment_id!: string;
  @Whole() place!: number;
  @Text() name!: string;
  @Minor() amount!: number;
  @YesNo() shown_to_client!: boolean;
  @Text() client_wording!: string;
}
