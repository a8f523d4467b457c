import { Entity } from 'typeorm';
import { Key, OptionalText, OptionalWhole, Text } from '../rows/columns.js';

/** A form or request that was carried out, by its once-only key, with the answer it got. */
@Entity('once')
export class OnceRow {
  @Key('once') id!: string;
  /** SHA-256 of what was asked: the same key with another request is refused. */
  @Text() fingerprint!: string;
  @Text() at!: string;
  @OptionalWhole() status!: number | null;
  @OptionalText() location!: string | null;
  @OptionalText() body!: string | null;
}
