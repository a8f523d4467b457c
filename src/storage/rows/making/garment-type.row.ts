import { Entity } from 'typeorm';
import { Key, Text, Whole, YesNo } from '../columns.js';

/** A type of garment the studio makes; the key is its short name, e.g. `lounge-jacket`. */
@Entity('garment_type')
export class GarmentTypeRow {
  @Key('garment_type') id!: string;
  @Whole() version!: number;
  @Text() name!: string;
  @Text() plural!: string;
  @YesNo() is_menu!: boolean;
  /** Body dimensions to take, in order: ids with a space between. */
  @Text() measuring_list!: string;
}
