import { createHash } from 'node:crypto';
import type { CalendarDate, Instant } from '../../../domain/kernel/calendar-date.js';
import { Conflict, NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { type BankLine, fingerprintsOf } from '../../../domain/papers/bank/bank-line.js';
import { inParts } from '../../in-parts.js';
import { BankImportRow } from '../../rows/payments/bank-import.row.js';
import { BankLineRow } from '../../rows/payments/bank-line.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';

/** How a line stands: nobody did anything with it, it was set aside, or a payment was made of it. */
export type LineStanding = 'open' | 'aside' | 'taken';

export type KeptBankLine = BankLine & {
  readonly id: string;
  readonly version: number;
  readonly importId: string;
  readonly standing: LineStanding;
  readonly paymentId: string | undefined;
};

/** A statement that was brought in. */
export type BankImport = {
  readonly id: string;
  readonly broughtAt: Instant;
  readonly who: string;
  readonly lines: number;
  readonly known: number;
  readonly leftOut: number;
  readonly mapping: string;
};

const AT_ONCE = 400;

/** The book of bank statements. It books nothing: a payment is made of a line by a person. */
export const bankBook = {
  /** @throws NotFound */
  async import(reading: Reading, id: string): Promise<BankImport> {
    const row = await reading.manager.findOneBy(BankImportRow, { id });
    if (!row) throw new NotFound('statement');
    return importOf(row);
  },

  /** The newest statements. */
  async imports(reading: Reading, limit = 20): Promise<BankImport[]> {
    const rows = await reading.manager.find(BankImportRow, { order: { id: 'DESC' }, take: limit });
    return rows.map(importOf);
  },

  /** @throws NotFound */
  async line(reading: Reading, id: string): Promise<KeptBankLine> {
    const row = await reading.manager.findOneBy(BankLineRow, { id });
    if (!row) throw new NotFound('line of a statement');
    return lineOf(row);
  },

  /** A statement's lines in their order. */
  async lines(
    reading: Reading,
    importId: string,
    asked: {
      readonly after?: string;
      readonly limit?: number;
      readonly standing?: LineStanding | undefined;
    } = {},
  ): Promise<PageOf<KeptBankLine>> {
    const { after = '', limit = 25, standing } = asked;
    const query = reading.manager
      .createQueryBuilder(BankLineRow, 'line')
      .where('line.import_id = :importId', { importId })
      .orderBy('line.id');
    if (standing) query.andWhere('line.standing = :standing', { standing });
    if (after) query.andWhere('line.id > :after', { after });
    const rows = await query.take(limit + 1).getMany();
    return {
      items: rows.slice(0, limit).map(lineOf),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** How many lines stand how. */
  async counts(reading: Reading, importId: string): Promise<Record<LineStanding, number>> {
    const rows = await reading.manager
      .createQueryBuilder(BankLineRow, 'line')
      .select('line.standing', 'standing')
      .addSelect('COUNT(*)', 'many')
      .where('line.import_id = :importId', { importId })
      .groupBy('line.standing')
      .getRawMany<{ standing: LineStanding; many: string | number }>();
    const counts = { open: 0, aside: 0, taken: 0 };
    for (const { standing, many } of rows) counts[standing] = Number(many);
    return counts;
  },

  /** Which of some lines are here already, from an earlier statement. */
  async known(reading: Reading, lines: readonly BankLine[]): Promise<Set<string>> {
    const marks = lines.length > 0 ? hashesOf(lines) : [];
    const found = new Set<string>();
    for (const some of inParts(marks, AT_ONCE)) {
      const rows = await reading.manager
        .createQueryBuilder(BankLineRow, 'line')
        .select(['line.id', 'line.fingerprint'])
        .where('line.fingerprint IN (:...marks)', { marks: some })
        .getMany();
      for (const { fingerprint } of rows) found.add(fingerprint);
    }
    return found;
  },

  /** Brings a statement's lines in; those that are here already are counted, not brought in again. */
  async bring(
    writing: Writing,
    lines: readonly BankLine[],
    said: { readonly leftOut: number; readonly mapping: string },
  ): Promise<BankImport> {
    const marks = hashesOf(lines);
    const known = await this.known(writing, lines);
    const fresh = lines.flatMap((line, place) =>
      known.has(marks[place]!) ? [] : [{ line, mark: marks[place]! }],
    );
    const row = await writing.insert(BankImportRow, {
      id: writing.newId(),
      brought_at: writing.at,
      who: writing.visit.who.name,
      lines: fresh.length,
      known: lines.length - fresh.length,
      left_out: said.leftOut,
      mapping: said.mapping,
    });
    await writing.insertAll(
      BankLineRow,
      fresh.map(({ line, mark }) => ({
        id: writing.newId(),
        import_id: row.id,
        place: line.place,
        on_day: line.on,
        amount: line.amount.minor,
        currency: line.amount.currency,
        payer: line.payer,
        words: line.words,
        fingerprint: mark,
        standing: 'open',
        payment_id: null,
      })),
    );
    return importOf(row);
  },

  /** @throws Conflict when something was done with it already */
  async mustBeOpen(reading: Reading, id: string): Promise<KeptBankLine> {
    const line = await this.line(reading, id);
    if (line.standing === 'taken')
      throw new Conflict('A payment was made of this line already.', 'line-taken');
    return line;
  },

  /** A payment was made of a line. */
  async markTaken(writing: Writing, line: KeptBankLine, paymentId: string): Promise<void> {
    await writing.update(BankLineRow, line.id, { standing: 'taken', payment_id: paymentId }, line.version);
  },

  /** Sets a line aside, or takes it up again. */
  async setAside(writing: Writing, line: KeptBankLine, aside: boolean): Promise<void> {
    await writing.update(BankLineRow, line.id, { standing: aside ? 'aside' : 'open' }, line.version);
  },

  /** The payment made of a line was reversed: the line is open again. */
  async release(writing: Writing, paymentId: string): Promise<void> {
    for (const row of await writing.manager.findBy(BankLineRow, { payment_id: paymentId }))
      await writing.update(BankLineRow, row.id, { standing: 'open', payment_id: null });
  },

  /** The line a payment was made of. */
  async ofPayment(reading: Reading, paymentId: string): Promise<KeptBankLine | undefined> {
    const row = await reading.manager.findOneBy(BankLineRow, { payment_id: paymentId });
    return row ? lineOf(row) : undefined;
  },
};

const hashesOf = (lines: readonly BankLine[]): string[] =>
  fingerprintsOf(lines).map((mark) => createHash('sha256').update(mark).digest('hex'));

const importOf = (row: BankImportRow): BankImport => ({
  id: row.id,
  broughtAt: row.brought_at,
  who: row.who,
  lines: row.lines,
  known: row.known,
  leftOut: row.left_out,
  mapping: row.mapping,
});

const lineOf = (row: BankLineRow): KeptBankLine => ({
  id: row.id,
  version: row.version,
  importId: row.import_id,
  place: row.place,
  on: row.on_day as CalendarDate,
  amount: Money.ofMinor(row.amount, row.currency),
  payer: row.payer,
  words: row.words,
  standing: row.standing as LineStanding,
  paymentId: row.payment_id ?? undefined,
});
