import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole, YesNo } from '../columns.js';
import { BodyDimensionRow } from './body-dimension.row.js';
import { MeasurementSetRow } from './measurement-set.row.js';

/** One dimension of a set: the text typed, the unit understood, and exact millimetres as text (`977.9`, `2921/3`). */
@Entity('measured_value')
@Index('ux_measured_value_dimension', ['set_id', 'dimension_id'], { unique: true })
export class MeasuredValueRow {
  @Key('measured_value') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => MeasurementSetRow, { name: 'fk_measured_value_measurement_set' }) set_id!: string;
  @Text()
  @ForeignKey(() => BodyDimensionRow, { name: 'fk_measured_value_body_dimension' })
  dimension_id!: string;
  @Whole() place!: number;
  @Text() typed!: string;
  @Text() unit!: string;
  @Text() mm!: string;
  /** `full` or `bare`. */
  @OptionalText() note!: string | null;
  /** In the unit typed, as it is shown back: `38 1/2 in full`. */
  @Text() shown!: string;
  /** Was the person asked about it, and stood by it? */
  @YesNo() confirmed!: boolean;
}
