import { Entity, ForeignKey } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { ClientRow } from './client.row.js';

/** What was settled about keeping what is held on a client; the key is the client's. */
@Entity('client_keeping')
export class ClientKeepingRow {
  @Key('client_keeping') @ForeignKey(() => ClientRow, { name: 'fk_client_keeping_client' }) id!: string;
  @Whole() version!: number;
  /** The last day on which nobody asks whether to keep it. */
  @OptionalText() keep_until!: string | null;
  /** The day on which it was erased. */
  @OptionalText() erased_on!: string | null;
  @Text() erased_by!: string;
}
