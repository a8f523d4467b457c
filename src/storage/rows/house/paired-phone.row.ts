import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { AccountRow } from './account.row.js';

/** A phone that was let in by a short code. Its secret is kept hashed; it stays paired until it is revoked or lies unused. */
@Entity('paired_phone')
@Index('ux_paired_phone_secret', ['secret_hash'], { unique: true })
@Index('ix_paired_phone_account', ['account_id'])
export class PairedPhoneRow {
  @Key('paired_phone') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => AccountRow, { name: 'fk_paired_phone_account' }) account_id!: string;
  @Text() name!: string;
  @Text() secret_hash!: string;
  @Text() paired_at!: string;
  @Text() seen_at!: string;
  @OptionalText() revoked_at!: string | null;
}
