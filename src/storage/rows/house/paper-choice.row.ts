import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { StudioRow } from './studio.row.js';

/** What the house says about its papers: one row under the studio's key, none before anything was said. */
@Entity('paper_choice')
export class PaperChoiceRow {
  @Key('paper_choice') @ForeignKey(() => StudioRow, { name: 'fk_paper_choice_studio' }) id!: string;
  @Whole() version!: number;
  @Text() invoice_series!: string;
  @Text() credit_series!: string;
  /** `tax-due-on-deposits` or `payment-on-account`. */
  @Text() treatment!: string;
  /** `shared`, `first` or `last`. */
  @Text() taking!: string;
  @Text() terms!: string;
  @Whole() payment_days!: number;
  /** Without blanks, in capitals. */
  @Text() iban!: string;
  @Text() bic!: string;
  @Text() bank!: string;
  @Text() account_name!: string;
  @Text() strapline!: string;
  @Text() head_lines!: string;
  @Text() small_print!: string;
  /** `en`, `fr` or `de`. */
  @Text() language!: string;
}
