import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { ClientRow } from './client.row.js';

/** What was measured on one client on one day. No book changes a row of this table: a slip is mended by a new set. */
@Entity('measurement_set')
@Index('ix_measurement_set_client', ['client_id', 'taken_on', 'id'])
export class MeasurementSetRow {
  @Key('measurement_set') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_measurement_set_client' }) client_id!: string;
  @Text() taken_on!: string;
  @Text() taken_by!: string;
  @Text() worn!: string;
  @Text() figuration!: string;
  /** Who was present when a child was measured. */
  @Text() guardian!: string;
  /** The garment type whose list was measured; empty where none was chosen. */
  @Text() garment_type!: string;
  /** The set this one was taken instead of, to mend a slip in it. */
  @OptionalText() instead_of!: string | null;
}
