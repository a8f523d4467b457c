import { z } from 'zod';
import { type CounterTicket, MOST_JOBS } from '../../../domain/counter/counter-ticket.js';
import { date, line, optionalDate, optionalLine, optionalLines } from '../../../web/fields/fields.js';
import type { FieldKit } from '../../../web/fields/kits.js';
import { closedUp } from '../../../web/forms/closed-up.js';
import { parse } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { moneyForField } from '../../../web/words/amounts.js';

export const JOB_FIELDS = ['fromList', 'job', 'price'];

const about = {
  name: line('Whose is it?', 120),
  reachedAt: optionalLine(120),
  what: line('What came in?', 400),
  found: optionalLines(1000),
  cameOn: date('When did it come in?'),
  readyBy: optionalDate(),
  notes: optionalLines(1000),
};

const named = <T extends { fromList: string; job: string }>(said: T): boolean =>
  said.fromList !== '' || said.job !== '';
const UNNAMED = { path: ['job'], message: 'Choose a job of the list, or name one.' };

/** A job: of the house price list, or named; its price is the list's where none is said. */
const jobs = (kit: FieldKit) =>
  z
    .strictObject({ fromList: optionalLine(60), job: optionalLine(200), price: kit.optionalMoney() })
    .refine(named, UNNAMED);
const plainJobs = z
  .strictObject({ fromList: optionalLine(60), job: optionalLine(200) })
  .refine(named, UNNAMED)
  .transform((said) => ({ ...said, price: undefined }));

const list = <T extends z.ZodType>(of: T) =>
  z
    .array(of, 'Give a list of jobs.')
    .min(1, 'Write down at least one job.')
    .max(MOST_JOBS, `At most ${MOST_JOBS} jobs on one ticket.`);

/** A ticket; prices are read from a hand that sees them only. */
export const CounterFields = (kit: FieldKit, seesPrices: boolean) =>
  z.strictObject({ ...about, lines: seesPrices ? list(jobs(kit)) : list(plainJobs) });
export type CounterSaid = z.output<ReturnType<typeof CounterFields>>;

/** What a hand that sees no prices corrects: everything but the jobs. */
export const PlainCounterFields = z.strictObject(about);
export type PlainCounterSaid = z.output<typeof PlainCounterFields>;

export const ReadyFields = z.strictObject({ readyOn: date('On which day was it ready?') });
export const CollectedFields = z.strictObject({
  collectedOn: date('On which day was it collected?'),
  collectedBy: line('Who collected it?', 120),
});

const CARRIED = new Set(['once', 'version', 'commit']);

/** The form with its jobs closed up. */
export const tidyJobs = (typed: Typed): Typed => closedUp(typed, 'lines', JOB_FIELDS).typed;

/** Reads the form. @throws Invalid naming every field at fault */
export const readTyped = <S extends z.ZodType>(schema: S, typed: Typed, withLines: boolean): z.output<S> => {
  const { rows, rest } = closedUp(typed, 'lines', JOB_FIELDS);
  const top = Object.fromEntries(Object.entries(rest).filter(([name]) => !CARRIED.has(name)));
  return parse(schema, withLines ? { ...top, lines: rows } : top);
};

export const typedTicket = (
  kept: CounterTicket,
  locale: string,
  seesPrices: boolean,
): Record<string, string> => ({
  name: kept.name,
  reachedAt: kept.reachedAt,
  what: kept.what,
  found: kept.found,
  cameOn: kept.cameOn,
  readyBy: kept.readyBy ?? '',
  notes: kept.notes,
  ...(seesPrices
    ? Object.fromEntries(
        kept.lines.flatMap(({ job, price }, place) => [
          [`lines.${place}.fromList`, ''],
          [`lines.${place}.job`, job],
          [`lines.${place}.price`, price ? moneyForField(price, locale) : ''],
        ]),
      )
    : {}),
});
