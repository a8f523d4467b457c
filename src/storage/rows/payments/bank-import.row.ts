import { Entity } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** A bank statement that was brought in. */
@Entity('bank_import')
export class BankImportRow {
  @Key('bank_import') id!: string;
  @Whole() version!: number;
  @Text() brought_at!: string;
  @Text() who!: string;
  @Whole() lines!: number;
  /** How many of its lines were here already, from an earlier import. */
  @Whole() known!: number;
  /** How many could not be read and were left out. */
  @Whole() left_out!: number;
  /** What its columns were said to hold, JSON: the next import begins with it. */
  @Text() mapping!: string;
}
