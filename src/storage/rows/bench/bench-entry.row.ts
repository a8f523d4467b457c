import { Entity, ForeignKey, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { PersonRow } from './person.row.js';
import { WorkedOnColumns } from './worked-on.js';

/** Minutes one person worked. Rows are added, never changed; a wrong one is reversed by another. */
@Entity('bench_entry')
@Index('ix_bench_entry_garment', ['garment_id', 'id'])
@Index('ix_bench_entry_commission', ['commission_id', 'id'])
@Index('ix_bench_entry_person', ['person_id', 'on_day', 'id'])
@Index('ix_bench_entry_day', ['on_day', 'id'])
@Index('ix_bench_entry_of', ['of_id'])
@Index('ix_bench_entry_kind', ['kind', 'minutes'])
@Index('ix_bench_entry_noted', ['person_id', 'on_day'], { where: "note <> ''" })
export class BenchEntryRow extends WorkedOnColumns {
  @Key('bench_entry') id!: string;
  @Whole() version!: number;
  @Text() @ForeignKey(() => PersonRow, { name: 'fk_bench_entry_person' }) person_id!: string;
  @Text() person_name!: string;
  @Whole() minutes!: number;
  @Text() on_day!: string;
  @OptionalText() begun_at!: string | null;
  @OptionalText() ended_at!: string | null;
  @Text() way!: string;
  /** The entry it reverses. */
  @OptionalText() of_id!: string | null;
  @Text() note!: string;
  @Text() written_at!: string;
}
