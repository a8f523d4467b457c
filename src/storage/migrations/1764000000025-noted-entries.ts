import { type MigrationInterface, type QueryRunner, TableIndex } from 'typeorm';

/** Entries with a note are a few among a million, and every page of the bench asks for those of one person. */
export class NotedEntries1764000000025 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    const columnNames = ['person_id', 'on_day'];
    const index = new TableIndex({ name: 'ix_bench_entry_noted', columnNames, where: "note <> ''" });
    await runner.createIndex('bench_entry', index);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.dropIndex('bench_entry', 'ix_bench_entry_noted');
  }
}
