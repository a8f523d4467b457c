import { OptionalText, Text } from '../columns.js';

/** The columns that say what minutes went into; names stand beside the keys, as a line may leave its plan. */
export abstract class WorkedOnColumns {
  @OptionalText() commission_id!: string | null;
  @OptionalText() garment_id!: string | null;
  @Text() garment_name!: string;
  @OptionalText() operation_id!: string | null;
  @Text() kind!: string;
  @Text() name!: string;
  /** Empty for time without a garment. */
  @Text() stage!: string;
  /** Empty for a whole stage. */
  @Text() mode!: string;
  /** Kind of time without a garment, or empty. */
  @Text() away!: string;
  /** One of the six causes, or empty for planned work. */
  @Text() cause!: string;
  @OptionalText() extra_id!: string | null;
}
