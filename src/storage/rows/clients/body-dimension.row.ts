import { Entity } from 'typeorm';
import { Key, Text, Whole, YesNo } from '../columns.js';

/** One thing the studio measures; the key is its short name, e.g. `chest-girth`, or `own-…` for the studio's own. */
@Entity('body_dimension')
export class BodyDimensionRow {
  @Key('body_dimension') id!: string;
  @Whole() version!: number;
  /** Its place in the studio's list. */
  @Whole() place!: number;
  @Text() name!: string;
  @YesNo() from_standard!: boolean;
  @Text() trade_word!: string;
  @Text() sort!: string;
  @Text() how!: string;
  /** The survey's column; empty where it has none. */
  @Text() survey!: string;
  @Text() source!: string;
}
