import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { AccountRow } from './account.row.js';

/** A short code that lets one phone in, once, within minutes. The key is the SHA-256 of the code. */
@Entity('pairing_code')
export class PairingCodeRow {
  @Key('pairing_code') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => AccountRow, { name: 'fk_pairing_code_account' }) account_id!: string;
  @Text() made_at!: string;
}
