import { Entity } from 'typeorm';
import { Key, Whole, YesNo } from '../columns.js';

/** What the house has settled about photographs: one row, `studio`, once it differs from the first rule. */
@Entity('photo_rule')
export class PhotoRuleRow {
  @Key('photo_rule') id!: string;
  @Whole() version!: number;
  @YesNo() of_children!: boolean;
  @Whole() months!: number;
  @Whole() child_months!: number;
}
