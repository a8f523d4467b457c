import type { BenchEntry, WorkedOn } from '../../../domain/bench/bench-entry.js';
import type { WorkedDay } from '../../../domain/bench/productive-share.js';
import { PERHAPS_LEFT_RUNNING } from '../../../domain/bench/sitting.js';
import type { TimedWork } from '../../../domain/bench/worked.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Minutes } from '../../../domain/kernel/minutes.js';
import type { Mode } from '../../../domain/making/mode.js';
import { BenchEntryRow } from '../../rows/bench/bench-entry.row.js';
import { keptIn, type Reading } from '../../session.js';
import { benchBook } from './bench-book.js';

/** What makes work alike: its kind; of a whole stage the stage, of time without a garment its kind. */
type Alike = Pick<WorkedOn, 'kind' | 'stage' | 'away'>;

/** Nobody sits longer at one piece of work: what ran longer was a clock left running. */
const A_DAY: Minutes = 24 * 60;

/** Sittings by the clock, as they stand. */
export const sittingBook = {
  /** The longest sitting that stands on such work; 0 when there is none. */
  async longest(reading: Reading, work: Alike): Promise<Minutes> {
    const row = await timed(reading, work)
      .orderBy('entry.minutes', 'DESC')
      .limit(1)
      .getRawOne<{ minutes: number }>();
    return row?.minutes ?? 0;
  },

  /** The newest sittings on such work, in minutes. */
  async recent(reading: Reading, work: Alike, limit = 101): Promise<Minutes[]> {
    const rows = await timed(reading, work)
      .orderBy('entry.id', 'DESC')
      .limit(limit)
      .getRawMany<{ minutes: number }>();
    return rows.map(({ minutes }) => minutes);
  },

  /** Minutes of one person, since a day, that bear this note and stand, oldest first: what is still to be asked. */
  async noted(reading: Reading, personId: string, since: CalendarDate, note: string): Promise<BenchEntry[]> {
    const rows = await reading.manager
      .createQueryBuilder(BenchEntryRow, 'entry')
      .select('entry.id', 'id')
      .where('entry.person_id = :personId AND entry.on_day >= :since', { personId, since })
      // Said once more that the note is not empty: by that the few that have one are found at once.
      .andWhere("entry.way = 'clock' AND entry.note <> '' AND entry.note = :note", { note })
      .andWhere((whole) => {
        const back = whole.subQuery().select('1').from(BenchEntryRow, 'back').where('back.of_id = entry.id');
        return `NOT EXISTS ${back.getQuery()}`;
      })
      .orderBy('entry.id')
      .limit(5)
      .getRawMany<{ id: string }>();
    return Promise.all(rows.map(({ id }) => benchBook.one(reading, id)));
  },

  /** The garments worked on last, newest first. */
  async lastGarments(reading: Reading, limit = 12): Promise<string[]> {
    return keptIn(reading, `last garments ${limit}`, async () => {
      const rows = await reading.manager
        .createQueryBuilder(BenchEntryRow, 'entry')
        .select('entry.garment_id', 'garment_id')
        .where('entry.garment_id IS NOT NULL')
        .orderBy('entry.id', 'DESC')
        .limit(200)
        .getRawMany<{ garment_id: string }>();
      return [...new Set(rows.map(({ garment_id }) => garment_id))].slice(0, limit);
    });
  },

  /**
   * Minutes in garments of which the mode is known, by day, person and mode; reversals set off. Ten thousands of entries a
   * year come to a few hundred lines.
   */
  async byMode(reading: Reading, from: CalendarDate, to: CalendarDate): Promise<TimedWork[]> {
    const rows = await reading.manager
      .createQueryBuilder(BenchEntryRow, 'entry')
      .select('entry.on_day', 'on')
      .addSelect('entry.person_name', 'personName')
      .addSelect('entry.mode', 'mode')
      .addSelect('SUM(entry.minutes)', 'minutes')
      .where('entry.on_day >= :from AND entry.on_day <= :to', { from, to })
      .andWhere("entry.garment_id IS NOT NULL AND entry.mode <> ''")
      .groupBy('entry.on_day')
      .addGroupBy('entry.person_name')
      .addGroupBy('entry.mode')
      .getRawMany<{ on: string; personName: string; mode: Mode; minutes: number | string }>();
    return rows.map(({ minutes, ...row }) => ({
      ...row,
      operationId: undefined,
      name: '',
      minutes: Number(minutes),
    }));
  },

  /** Minutes of each day of a span, in garments and in all, of everybody together. */
  async days(reading: Reading, from: CalendarDate, to: CalendarDate): Promise<WorkedDay[]> {
    return keptIn(reading, `days worked ${from} ${to}`, async () => {
      const rows = await reading.manager
        .createQueryBuilder(BenchEntryRow, 'entry')
        .select('entry.on_day', 'on')
        .addSelect('SUM(entry.minutes)', 'inAll')
        .addSelect('SUM(CASE WHEN entry.garment_id IS NULL THEN 0 ELSE entry.minutes END)', 'inGarments')
        .where('entry.on_day >= :from AND entry.on_day <= :to', { from, to })
        .groupBy('entry.on_day')
        .orderBy('entry.on_day')
        .getRawMany<{ on: string; inAll: number | string; inGarments: number | string }>();
      return rows.map(({ on, inAll, inGarments }) => ({
        on,
        inAll: Number(inAll),
        inGarments: Number(inGarments),
      }));
    });
  },
};

const timed = (reading: Reading, { kind, stage, away }: Alike) => {
  const query = reading.manager
    .createQueryBuilder(BenchEntryRow, 'entry')
    .select('entry.minutes', 'minutes')
    .where('entry.kind = :kind', { kind })
    .andWhere('entry.begun_at IS NOT NULL')
    .andWhere('entry.minutes > 0 AND entry.minutes <= :aDay', { aDay: A_DAY })
    // What is still asked about says nothing of how long such work takes.
    .andWhere('entry.note <> :asked', { asked: PERHAPS_LEFT_RUNNING })
    .andWhere((whole) => {
      const back = whole.subQuery().select('1').from(BenchEntryRow, 'back').where('back.of_id = entry.id');
      return `NOT EXISTS ${back.getQuery()}`;
    });
  if (kind === '')
    query.andWhere('entry.stage = :stage AND entry.away = :away', { stage: stage ?? '', away: away ?? '' });
  return query;
};
