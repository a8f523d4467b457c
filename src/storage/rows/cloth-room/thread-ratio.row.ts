import { Entity } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** The studio's own ratio for a stitch type. Its key is the type's number in ISO 4915. */
@Entity('thread_ratio')
export class ThreadRatioRow {
  @Key('thread_ratio') id!: string;
  @Whole() version!: number;
  @Text() ratio!: string;
  @Text() source!: string;
}
