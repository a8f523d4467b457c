import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, OptionalText, Text, Whole } from '../columns.js';

/** A pattern on its hook. */
@Entity('pattern')
@Index('ux_pattern_number', ['number'], { unique: true })
@Index('ix_pattern_client', ['client_id', 'id'])
export class PatternRow {
  @Key('pattern') id!: string;
  @Whole() version!: number;
  @Text() number!: string;
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_pattern_client' }) client_id!: string;
  @Text() garment_type!: string;
  @Text() name!: string;
  @Text() hook!: string;
  @Text() last_correction!: string;
  @OptionalText() corrected_on!: string | null;
  @OptionalText() fitting_id!: string | null;
  /** The garment it was drafted for. */
  @OptionalText() from_garment_id!: string | null;
  @Text() notes!: string;
}
