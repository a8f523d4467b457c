import { foldForSearch } from '../../../domain/clients/client.js';
import { farOff } from '../../../domain/estimating/far-off.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import type { PastGarment } from '../../../domain/lessons/past-garment.js';
import type { PastOperation } from '../../../domain/lessons/past-work.js';
import type { GarmentType } from '../../../domain/making/garment-type.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import type { PastGarmentWords } from '../../../storage/books/past-garment-book.js';
import type { TextTable } from '../../../web/tables/table-of-text.js';
import { type DateField, readDate } from '../../../web/words/dates.js';
import type { GarmentColumn, Meaning } from './columns.js';
import type { ImportWords } from './import.form.js';
import { type NamedWork, usualMinutesOf, workByName } from './known-work.js';
import { readListedTime } from './read-time.js';
import { workOfRows } from './work-of-rows.js';

/** One garment of the list and what would come of it. */
export type PlannedGarment = {
  /** The line of the file on which it begins. */
  readonly line: number;
  readonly rows: number;
  readonly saidType: string;
  readonly words: PastGarmentWords | undefined;
  /** Empty where only its total is known. */
  readonly operations: readonly PastOperation[];
  readonly troubles: readonly string[];
  readonly isUnusual: boolean;
  readonly isTwin: boolean;
};

/** Everything a list comes to. */
export type PlannedList = {
  readonly garments: readonly PlannedGarment[];
  /** What the list calls garments and nobody has said the type of. */
  readonly unknown: readonly string[];
  /** What the list calls operations and nobody has said the meaning of. */
  readonly unknownWork: readonly string[];
  /** A column of times with bare numbers and no unit; asked about, never guessed. */
  readonly bareIn: number | undefined;
};

export type PlanOf = {
  readonly meanings: readonly (Meaning | undefined)[];
  readonly kinds: ImportWords['kinds'];
  readonly works: ImportWords['works'];
  readonly types: readonly GarmentType[];
  readonly operations: readonly KnownOperation[];
  readonly past: readonly PastGarment[];
  readonly dates: DateField;
};

type Row = {
  readonly line: number;
  readonly garment: string;
  readonly saidType: string;
  readonly typeId: string | undefined;
  readonly saidWork: string;
  readonly work: NamedWork | undefined;
  readonly took: Decimal | undefined;
  readonly planned: Decimal | undefined;
  readonly finished: CalendarDate | undefined;
  readonly note: string;
  readonly troubles: readonly string[];
};

/** Reads every row of a list; rows of one garment are added together. */
export const planList = (table: TextTable, of: PlanOf): PlannedList => {
  const typeOf = typesByName(of);
  const workOf = workByName(of.operations, of.works);
  const usualOf = usualMinutesOf(of.types, of.operations);
  const bare = new Set<number>();
  const rows = table.rows.map(({ line, cells }) => rowOf(cells, line, of, { typeOf, workOf, bare }));
  const heard = new Map<string, string>();
  const heardWork = new Map<string, string>();
  for (const { saidType, typeId, saidWork, work } of rows) {
    if (saidType && typeId === undefined) heard.set(foldForSearch(saidType), saidType);
    if (saidWork && work === undefined) heardWork.set(foldForSearch(saidWork), saidWork);
  }
  const garments = together(rows).map((rowsOfOne) => garmentOf(rowsOfOne, usualOf));
  const away = unusual(garments);
  const there = new Set(of.past.flatMap((past) => twinKey(past) ?? []));
  return {
    garments: garments.map((one, place) => ({
      ...one,
      isUnusual: away.has(place),
      isTwin: one.words !== undefined && there.has(twinKey(one.words) ?? ''),
    })),
    unknown: [...heard.values()],
    unknownWork: [...heardWork.values()],
    bareIn: [...bare].sort((a, b) => a - b)[0],
  };
};

const typesByName = ({ types, kinds }: PlanOf): ((said: string) => string | undefined) => {
  const known = new Map<string, string>();
  for (const { id, name, plural, isMenu } of types)
    if (!isMenu) for (const word of [id, name, plural]) known.set(foldForSearch(word), id);
  const ids = new Set(known.values());
  for (const { said, type } of kinds) if (ids.has(type)) known.set(foldForSearch(said), type);
  return (said) => known.get(foldForSearch(said));
};

const rowOf = (
  cells: readonly string[],
  line: number,
  of: PlanOf,
  known: {
    readonly typeOf: (said: string) => string | undefined;
    readonly workOf: ReturnType<typeof workByName>;
    readonly bare: Set<number>;
  },
): Row => {
  const troubles: string[] = [];
  const textOf = (field: GarmentColumn): string =>
    of.meanings
      .flatMap((meaning, place) => (meaning?.field === field ? [(cells[place] ?? '').trim()] : []))
      .filter((cell) => cell !== '')
      .join(', ');
  const saidWork = textOf('operation').slice(0, 200);
  const timeOf = (field: 'took' | 'planned', label: string): Decimal | undefined => {
    const place = of.meanings.findIndex((meaning) => meaning?.field === field);
    const cell = (cells[place] ?? '').trim();
    if (place < 0 || cell === '') return undefined;
    const read = readListedTime(cell, of.meanings[place]?.unit ?? '', saidWork !== '');
    if ('hours' in read) return read.hours;
    if ('isBare' in read) known.bare.add(place);
    else troubles.push(`${label}: ${read.trouble}`);
    return undefined;
  };
  const saidType = textOf('type').slice(0, 200);
  const typeId = saidType ? known.typeOf(saidType) : undefined;
  const work = saidWork ? known.workOf(saidWork, typeId) : undefined;
  const took = timeOf('took', 'Time it took');
  const planned = timeOf('planned', 'Time planned');
  const day = readDate(textOf('finished'), of.dates);
  if (day.kind !== 'ok' && day.kind !== 'empty') troubles.push(`Finished on: ${day.sentence}`);
  if (day.kind === 'ok' && day.value > of.dates.today)
    troubles.push('Finished on: this day is still to come.');
  return {
    line,
    garment: textOf('garment').slice(0, 100),
    saidType,
    typeId,
    saidWork,
    work,
    took,
    planned,
    finished: day.kind === 'ok' ? day.value : undefined,
    note: textOf('note').slice(0, 200),
    troubles,
  };
};

/** Rows with the same number are one garment; a row without a number is one of its own. */
const together = (rows: readonly Row[]): Row[][] => {
  const found = new Map<string, Row[]>();
  for (const row of rows) {
    const key = row.garment ? `number ${row.garment}` : `line ${row.line}`;
    const before = found.get(key);
    if (before) before.push(row);
    else found.set(key, [row]);
  }
  return [...found.values()];
};

const garmentOf = (
  rows: readonly Row[],
  usualOf: ReturnType<typeof usualMinutesOf>,
): Omit<PlannedGarment, 'isUnusual' | 'isTwin'> => {
  const [first] = rows as readonly [Row, ...Row[]];
  const troubles = rows.flatMap((row) =>
    rows.length > 1 ? row.troubles.map((trouble) => `line ${row.line}: ${trouble}`) : row.troubles,
  );
  const saidType = rows.map((row) => row.saidType).find((said) => said !== '') ?? '';
  const typeIds = new Set(rows.flatMap(({ typeId }) => typeId ?? []));
  const [typeId] = typeIds;
  if (saidType === '') troubles.push('Garment type: none is given.');
  else if (typeId === undefined) troubles.push(`Garment type: say what “${saidType}” is.`);
  else if (typeIds.size > 1) troubles.push('Garment type: its rows name different ones.');
  const { operations, troubles: ofWork } = workOfRows(rows, typeId, usualOf);
  troubles.push(...ofWork);
  const hours = sumOf(rows.map(({ took }) => took));
  if (!hours?.gt(0) && troubles.length === 0) troubles.push('Time it took: no time is given.');
  const days = rows.flatMap(({ finished }) => finished ?? []).sort();
  return {
    line: first.line,
    rows: rows.length,
    saidType,
    troubles,
    operations,
    words:
      troubles.length > 0 || !typeId || !hours
        ? undefined
        : {
            typeId,
            hours,
            plannedHours: aboveNought(sumOf(rows.map(({ planned }) => planned))),
            finishedOn: days.at(-1),
            note: rows.map(({ note }) => note).find((note) => note !== '') ?? '',
          },
  };
};

const sumOf = (times: readonly (Decimal | undefined)[]): Decimal | undefined =>
  times.reduce((sum, time) => (sum && time ? sum.plus(time) : (time ?? sum)), undefined);

const aboveNought = (time: Decimal | undefined): Decimal | undefined => (time?.gt(0) ? time : undefined);

/** Places of garments far off from the others of their type in this list: slips, or minutes among hours. */
const unusual = (garments: readonly Pick<PlannedGarment, 'words'>[]): ReadonlySet<number> => {
  const byType = new Map<string, { place: number; hours: number }[]>();
  garments.forEach(({ words }, place) => {
    if (!words) return;
    const before = byType.get(words.typeId) ?? [];
    before.push({ place, hours: words.hours.toNumber() });
    byType.set(words.typeId, before);
  });
  return new Set(
    [...byType.values()].flatMap((ofType) => {
      const away = farOff(ofType.map(({ hours }) => hours));
      return ofType.flatMap(({ place }, i) => (away[i] ? [place] : []));
    }),
  );
};

/** Without a day two garments may well be alike. */
const twinKey = ({ typeId, finishedOn, hours }: PastGarmentWords): string | undefined =>
  finishedOn && `${typeId} ${finishedOn} ${hours.toFixed()}`;
