import { Entity } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** What the maker says a garment of a type takes; the key is the type's. */
@Entity('own_guess')
export class OwnGuessRow {
  @Key('own_guess') id!: string;
  @Whole() version!: number;
  @Text() hours!: string;
}
