import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { StudioRow } from './studio.row.js';

/** The mark on the letterhead, in a row of its own so that no page reads it by the way. */
@Entity('studio_mark')
export class StudioMarkRow {
  @Key('studio_mark') @ForeignKey(() => StudioRow, { name: 'fk_studio_mark_studio' }) id!: string;
  @Whole() version!: number;
  /** `svg` or `png`. */
  @Text() kind!: string;
  /** What it shows, for those who do not see it. */
  @Text() alternative!: string;
  /** Base64, as it is printed: looked through, nothing in it that runs or fetches. */
  @Text() bytes!: string;
}
