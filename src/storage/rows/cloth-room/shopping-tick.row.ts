import { Entity } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** A line of the shopping list that was ticked as bought. Its key is the planned line's. */
@Entity('shopping_tick')
export class ShoppingTickRow {
  @Key('shopping_tick') id!: string;
  @Whole() version!: number;
  @Text() ticked_at!: string;
  @Text() who!: string;
}
