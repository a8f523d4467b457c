import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, Text } from '../columns.js';
import { AccountRow } from './account.row.js';

/** A browser that is signed in. The key is the SHA-256 of the cookie's secret. */
@Entity('sign_in_session')
@Index('ix_sign_in_session_account', ['account_id'])
export class SignInSessionRow {
  @Key('sign_in_session') id!: string;
  @Text() @ForeignKey(() => AccountRow, { name: 'fk_sign_in_session_account' }) account_id!: string;
  @Text() begun_at!: string;
  @Text() seen_at!: string;
}
