import { Column, type ColumnOptions, PrimaryColumn } from 'typeorm';

/*
 * The portable columns: each means the same on SQLite and PostgreSQL. Decimals, instants, dates and documents are text;
 * money is whole minor units.
 */

/** Text of any length. */
export const Text = (): PropertyDecorator => Column({ type: 'varchar' });
export const OptionalText = (): PropertyDecorator => Column({ type: 'varchar', nullable: true });

/** A whole number within 32 bits: minutes, counts, places in a list. */
export const Whole = (): PropertyDecorator => Column({ type: 'integer' });
export const OptionalWhole = (): PropertyDecorator => Column({ type: 'integer', nullable: true });

export const YesNo = (): PropertyDecorator => Column({ type: 'boolean' });

const safeInteger: ColumnOptions['transformer'] = {
  to: (value: number | null | undefined) => {
    if (value !== null && value !== undefined && !Number.isSafeInteger(value)) {
      throw new TypeError('Money is stored as a safe integer of minor units.');
    }
    return value;
  },
  // PostgreSQL answers a bigint as text.
  from: (value: string | number | null) => (value === null ? null : Number(value)),
};

/** Money in whole minor units. */
export const Minor = (): PropertyDecorator => Column({ type: 'bigint', transformer: safeInteger });
export const OptionalMinor = (): PropertyDecorator =>
  Column({ type: 'bigint', nullable: true, transformer: safeInteger });

/** The key of a row: text, a UUID unless the table says otherwise. */
export const Key = (table: string): PropertyDecorator =>
  PrimaryColumn({ type: 'varchar', primaryKeyConstraintName: `pk_${table}` });
