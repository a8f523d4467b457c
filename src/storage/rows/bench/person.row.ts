import { Entity, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole, YesNo } from '../columns.js';

/** Somebody whose minutes are kept. */
@Entity('person')
@Index('ux_person_folded', ['folded'], { unique: true })
export class PersonRow {
  @Key('person') id!: string;
  @Whole() version!: number;
  @Text() name!: string;
  @Text() folded!: string;
  /** `owner`, `maker` or `bookkeeper`. */
  @Text() role!: string;
  /** The account they sign in with. */
  @OptionalText() account_id!: string | null;
  @YesNo() sees_prices!: boolean;
  @YesNo() has_left!: boolean;
}
