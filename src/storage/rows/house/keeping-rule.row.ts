import { Entity } from 'typeorm';
import { Key, Whole } from '../columns.js';

/** How long the house keeps what it holds on somebody: one row, `studio`, once it differs from the first rule. */
@Entity('keeping_rule')
export class KeepingRuleRow {
  @Key('keeping_rule') id!: string;
  @Whole() version!: number;
  @Whole() years!: number;
  @Whole() child_years!: number;
}
