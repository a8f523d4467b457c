import { Entity, Index } from 'typeorm';
import { Key, OptionalMinor, OptionalText, Text, Whole, YesNo } from '../columns.js';

/** A line of the house price list. */
@Entity('standing_price')
@Index('ix_standing_price_place', ['sort', 'place'])
export class StandingPriceRow {
  @Key('standing_price') id!: string;
  @Whole() version!: number;
  /** `counter` or `make-and-trim`. */
  @Text() sort!: string;
  @Whole() place!: number;
  @Text() name!: string;
  @Text() hours!: string;
  @OptionalMinor() trimmings!: number | null;
  /** Set where the price was put by hand. */
  @OptionalMinor() own_price!: number | null;
  /** The known operation or the garment type it was taken from. */
  @OptionalText() taken_from!: string | null;
  @YesNo() from_starting_values!: boolean;
}
