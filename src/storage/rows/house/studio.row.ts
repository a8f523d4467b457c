import { Entity } from 'typeorm';
import { Key, Minor, OptionalMinor, OptionalText, Text, Whole, YesNo } from '../columns.js';

/** The house itself: one row, `studio`. Every answer of the first run stands here and can be changed in House. */
@Entity('studio')
export class StudioRow {
  @Key('studio') id!: string;
  @Whole() version!: number;
  @Text() name!: string;
  @Text() maker!: string;
  /** Lines of the letterhead, one a line. */
  @Text() address!: string;
  @Text() country!: string;
  @Text() email!: string;
  @Text() phone!: string;
  @Text() website!: string;
  /** ISO 4217. */
  @Text() currency!: string;
  /** IANA time zone, e.g. Europe/Dublin. */
  @Text() zone!: string;
  /** BCP 47, for numbers and dates on pages, e.g. en-GB. */
  @Text() locale!: string;
  /** Body measurements: `cm` or `in`. */
  @Text() length_unit!: string;
  /** Cloth: `m` or `yd`. */
  @Text() cloth_unit!: string;
  @YesNo() tax_registered!: boolean;
  @Text() tax_number!: string;
  @Text() company_number!: string;
  /** EN 16931 category code of ordinary work. */
  @Text() tax_category!: string;
  /** Percent, decimal text. */
  @Text() tax_rate!: string;
  @Text() tax_reason!: string;
  /** Prices are kept `none` (net) or `tax` (gross). */
  @Text() prices_include!: string;
  /** Pattern of quote numbers, e.g. Q-{year}-{000}. */
  @Text() quote_series!: string;
  /** Pattern of commission numbers. */
  @Text() commission_series!: string;
  @Whole() quote_days!: number;
  /** `fixed`, `estimate` or `time`: what a quote says it is unless told otherwise. */
  @Text() quote_kind!: string;
  /** Degree of certainty, decimal text: 0.5, 0.8 or 0.9. */
  @Text() certainty!: string;
  /** `margin` (share of price) or `markup` (share of cost). */
  @Text() profit_basis!: string;
  /** Share, decimal text. */
  @Text() profit_share!: string;
  @Text() handling_share!: string;
  @OptionalMinor() minimum_charge!: number | null;
  @Text() rush_share!: string;
  @Text() rush_on!: string;
  /** Prices go up to a multiple of this many minor units. */
  @Minor() round_to!: number;
  /** `none`, `share` (of the price) or `materials-and-labour` (all materials and a share of labour). */
  @Text() deposit_rule!: string;
  @Text() deposit_share!: string;
  @Text() terms!: string;
  @Text() cloth_wording!: string;
  @Text() exclusions!: string;
  @Whole() fittings_included!: number;
  /** First-run answer: `no`, `a-little`, `a-lot`, `unknown`. */
  @Text() overruns!: string;
  /** `A4` or `Letter`. */
  @Text() sheet!: string;
  /** One of the inks of the look. */
  @Text() accent!: string;
  @YesNo() keys_on!: boolean;
  /** What a bare number typed as a time means: `ask`, `minutes` or `hours`. */
  @Text() bare_time!: string;
  @OptionalText() first_run_done!: string | null;
}
