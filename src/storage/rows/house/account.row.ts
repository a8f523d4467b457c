import { Entity, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** Somebody who may sign in. */
@Entity('account')
@Index('ux_account_name', ['name_folded'], { unique: true })
export class AccountRow {
  @Key('account') id!: string;
  @Whole() version!: number;
  @Text() name!: string;
  /** Lower-cased, for signing in. */
  @Text() name_folded!: string;
  /** `owner`, `maker` or `bookkeeper`. */
  @Text() role!: string;
  /** argon2id, PHC string. */
  @Text() passphrase_hash!: string;
}
