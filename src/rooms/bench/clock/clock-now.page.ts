import { randomUUID } from 'node:crypto';
import type { RunningClock } from '../../../domain/bench/running-clock.js';
import { extraName } from '../../../domain/commissions/extra.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import { dateIn, type Instant } from '../../../domain/kernel/calendar-date.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { clockBook } from '../../../storage/books/bench/clock-book.js';
import { extraBook } from '../../../storage/books/bench/extra-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { freshForm } from '../../../web/forms/form.js';
import type { SignedIn } from '../../../web/visit.js';
import { mayGo } from '../../../web/who-may.js';
import { dateInWords, dayInWords, timeInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { personLooking } from '../work/who-works.js';
import { causeInWords, whatInWords } from '../work/work-words.js';
import {
  type Elapsed,
  elapsedOf,
  garmentSoFar,
  keptQuestions,
  type LeftQuestion,
  nextAfter,
  runningQuestion,
} from './clock-told.js';
import { zoneOf } from './keep-sitting.js';
import { type Tap, tapping } from './tap.js';

/** What the partial `bench/clock-now` shows: the clock that runs, what it asks, and what a phone still keeps. */
export type ClockWords = {
  readonly running: RunningWords | '';
  readonly questions: readonly object[];
  /** A stop for a clock that was started while the network was away; the script shows it. */
  readonly stopWaiting: Tap;
  readonly who: string;
  readonly now: Instant;
};

type RunningWords = {
  readonly what: string;
  readonly garment: { readonly place: string; readonly text: string; readonly href: string } | '';
  readonly elapsed: string;
  readonly note: string;
  readonly why: string;
  readonly extra: { readonly text: string; readonly href: string } | '';
  readonly taps: readonly Tap[];
  /** Numbers for the script that lets the clock go on in sight. */
  readonly begun: Instant;
  readonly before: string;
  readonly planned: string;
};

/** `1 h 10 of 2 h`; without a plan `1 h 10`. */
export const elapsedInWords = ({ sitting, before, planned }: Elapsed): string =>
  planned > 0
    ? `${minutesInWords(before + sitting)} of ${minutesInWords(planned)}`
    : minutesInWords(before + sitting);

/**
 * The clock of whoever looks, for any page of the bench: give it to the partial `bench/clock-now`.
 *
 * @param personId somebody else's, for the owner
 * @param asked the form of a question that was refused
 */
export const clockWords = async (
  reading: Reading,
  clock: Clock,
  visit: SignedIn,
  personId = '',
  asked?: FormModel,
): Promise<ClockWords> => {
  const now = clock.now();
  const { person, mine } = await personLooking(reading, visit, personId);
  const other = person && person.id !== mine?.id ? person.id : undefined;
  const taps = tapping(visit, now, other);
  const base = { who: visit.who.id, now, stopWaiting: taps.stop('Stop', 'Stop', {}, { main: true }) };
  if (!person) return { ...base, running: '', questions: [] };
  const zone = await zoneOf(reading);
  const runs = await clockBook.of(reading, person.id);
  const questions = await keptQuestions(reading, person.id, now, zone);
  const open = runs && (await runningQuestion(reading, runs, now, zone));
  return {
    ...base,
    running: runs ? await runningWords(reading, runs, now, zone, taps, visit) : '',
    questions: [...(open ? [open] : []), ...questions].map((one) => questionWords(one, zone, other, asked)),
  };
};

const runningWords = async (
  reading: Reading,
  runs: RunningClock,
  now: Instant,
  zone: string,
  taps: ReturnType<typeof tapping>,
  visit: SignedIn,
): Promise<RunningWords> => {
  const soFar = runs.garmentId ? await garmentSoFar(reading, runs.garmentId) : undefined;
  const elapsed = elapsedOf(runs, now, soFar);
  const next = soFar && nextAfter(runs, soFar);
  const seen = { begun: runs.begunAt };
  const what = whatInWords(runs);
  const isPlanned = Boolean(runs.operationId || (runs.stage && !runs.kind));
  const start = { garment: runs.garmentId ?? '', operation: next?.id ?? '' };
  return {
    what,
    garment: await garmentLine(reading, runs),
    elapsed: elapsedInWords(elapsed),
    note: [
      `Since ${sinceInWords(runs.begunAt, now, zone)}`,
      ...(elapsed.before > 0 ? [`${minutesInWords(elapsed.sitting)} of it now`] : []),
    ].join(', '),
    why: runs.cause ? `Not in the plan: “${causeInWords(runs.cause)}”. ${causeRule(runs.cause).follows}` : '',
    extra: await extraLink(reading, runs, visit),
    taps: [
      taps.stop('Stop', `Stop ${what}`, seen, { main: true }),
      ...(isPlanned ? [taps.stop('Done with it', `${what} is finished`, { ...seen, finished: 'yes' })] : []),
      ...(next
        ? [
            taps.start(`Stop, and start ${next.name}`, `Start ${next.name}`, start),
            ...(isPlanned
              ? [
                  taps.start(`Done; start ${next.name}`, `${what} is finished; start ${next.name}`, {
                    ...start,
                    finished: 'yes',
                  }),
                ]
              : []),
          ]
        : []),
    ],
    begun: runs.begunAt,
    before: String(elapsed.before),
    planned: String(elapsed.planned),
  };
};

const sinceInWords = (begunAt: Instant, now: Instant, zone: string): string => {
  const day = dateIn(begunAt, zone);
  const time = timeInWords(begunAt, zone);
  return day === dateIn(now, zone) ? time : `${time} on ${dayInWords(day)}`;
};

const garmentLine = async (reading: Reading, { garmentId, commissionId }: RunningClock) => {
  if (!garmentId || !commissionId) return '' as const;
  const garment = await garmentBook.one(reading, garmentId);
  const { number } = await commissionBook.one(reading, commissionId);
  return {
    place: String(garment.place),
    text: `${garment.name}, ${number}`,
    href: `/bench/garments/${garmentId}`,
  };
};

/** Work that may be charged is made an extra of, so that price and day are known before anyone agrees. */
const extraLink = async (reading: Reading, clock: RunningClock, visit: SignedIn) => {
  const { cause, extraId, garmentId, commissionId } = clock;
  if (extraId) {
    const extra = await extraBook.one(reading, extraId);
    const href = `/commissions/${extra.commissionId}/extras/${extra.number}`;
    return mayGo(visit, 'GET', href) ? { text: `It counts for ${extraName(extra)}`, href } : ('' as const);
  }
  if (!cause || !garmentId || !causeRule(cause).mayBeExtra) return '' as const;
  const query = new URLSearchParams({ cause, 'lines.0.line': whatInWords(clock), look: 'yes' });
  const href = `/commissions/${commissionId}/garments/${garmentId}/extras/new?${query.toString()}`;
  if (!mayGo(visit, 'GET', href)) return '' as const;
  return {
    text: 'Make an extra of it: price and new date first',
    href,
  };
};

const ANSWERS: Readonly<Record<'now' | 'usual' | 'evening', (running: boolean) => string>> = {
  now: (running) => (running ? 'Just now' : 'It was right as it stands'),
  usual: () => 'After the usual time',
  evening: () => 'At six that evening',
};

const questionWords = (
  { work, span, answers, entry, once }: LeftQuestion,
  zone: string,
  personId: string | undefined,
  asked: FormModel | undefined,
): object => {
  const day = dateIn(span.begunAt, zone);
  const values: Record<string, string> = {
    ...(entry ? { entry } : { begun: span.begunAt }),
    ...(personId ? { person: personId } : {}),
  };
  const running = entry === undefined;
  const length = minutesInWords(
    'minutes' in work ? work.minutes : elapsedOf(work, span.endedAt, undefined).sitting,
  );
  const isRefused = asked !== undefined && (asked.values.entry ?? '') === (entry ?? '');
  return {
    text: `The clock on ${whatInWords(work)} ${running ? 'has run' : 'ran'} ${length}, from ${timeInWords(span.begunAt, zone)} on ${dayInWords(day)}. When did it stop?`,
    answers: answers.map(({ is, at }) => ({
      action: '/bench/clock/left',
      once: is === 'now' ? once : randomUUID(),
      text: is === 'now' ? ANSWERS[is](running) : `${ANSWERS[is](running)}, ${timeInWords(at, zone)}`,
      label: `${ANSWERS[is](running)}: ${whatInWords(work)}, ${dateInWords(day)}`,
      values: { ...values, ...(is === 'now' ? {} : { stopped: at }) },
    })),
    hidden: values,
    form: isRefused
      ? { ...asked, action: '/bench/clock/left' }
      : { ...freshForm('/bench/clock/left', { day }), idPrefix: `left-${entry ?? 'now'}-` },
  };
};
