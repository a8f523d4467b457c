import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { AccountRow } from './account.row.js';

/** A key for programs. Only the SHA-256 of its secret is kept. */
@Entity('api_token')
@Index('ux_api_token_hash', ['secret_hash'], { unique: true })
export class ApiTokenRow {
  @Key('api_token') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => AccountRow, { name: 'fk_api_token_account' }) account_id!: string;
  @Text() name!: string;
  @Text() secret_hash!: string;
  @Text() made_at!: string;
  @OptionalText() revoked_at!: string | null;
}
