import { Entity } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** Where a number series stands. The key is `kind/period`, e.g. `quote/2026`. */
@Entity('series')
export class SeriesRow {
  @Key('series') id!: string;
  @Whole() version!: number;
  @Text() pattern!: string;
  @Whole() last!: number;
}
