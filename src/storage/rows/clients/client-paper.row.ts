import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { ClientRow } from './client.row.js';

/** How a client's papers are written, where it is not as the house's own. */
@Entity('client_paper')
export class ClientPaperRow {
  @Key('client_paper') @ForeignKey(() => ClientRow, { name: 'fk_client_paper_client' }) id!: string;
  @Whole() version!: number;
  /** `en`, `fr`, `de`, or '' for the house's own. */
  @Text() language!: string;
}
