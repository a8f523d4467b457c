import { Entity, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';

/** What is known of a photograph; its bytes lie in `photo_picture`, so that lists never read them. */
@Entity('photo')
@Index('ix_photo_about', ['about', 'id'])
@Index('ix_photo_client', ['client_id', 'id'])
@Index('ix_photo_until', ['until_day'])
export class PhotoRow {
  @Key('photo') id!: string;
  @Whole() version!: number;
  /** Path of what it shows. */
  @Text() about!: string;
  /** Whose body may be on it. */
  @OptionalText() client_id!: string | null;
  @Text() taken_on!: string;
  @Text() words!: string;
  @Text() scope!: string;
  @Text() consent_by!: string;
  /** The last day of the consent. */
  @OptionalText() until_day!: string | null;
  @Whole() width!: number;
  @Whole() height!: number;
  @Text() added_by!: string;
}
