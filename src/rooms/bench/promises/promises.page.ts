import { promisedByWeek } from '../../../domain/estimating/promise/by-week.js';
import type { Simulated } from '../../../domain/estimating/promise/simulate.js';
import { WEIGHT_OF_CARD } from '../../../domain/estimating/promise/weekly-hours.js';
import { daysBetween } from '../../../domain/kernel/calendar-date.js';
import type { ClosedSpan } from '../../../storage/books/bench/closed-day-book.js';
import type { PageWords } from '../../../web/reply.js';
import { countInWords, listInWords } from '../../../web/words/counts.js';
import { dateInWords, dayAndMonthInWords } from '../../../web/words/dates.js';
import { daysInWords } from '../day-sheet/leaving-words.js';
import { spanInWords } from './close-days.js';
import type { Backlog, PromisedGarment } from './gather-promises.js';
import { chanceInWords, hoursToPlanBy } from './promise-words.js';
import { weeksPicture } from './weeks.picture.js';

export const PROMISES = '/bench/promises';
export const promisesCrumbs = [
  { text: 'Bench', href: '/' },
  { text: 'Promises', href: PROMISES },
];
const WEEKS = 26;
const DAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

export type May = (url: string) => boolean;

/** A garment as a table names it. */
export const garmentCell = ({ garment }: Pick<PromisedGarment, 'garment'>, may: May): object => {
  const sheet = `/commissions/${garment.commissionId}/garments/${garment.id}`;
  return {
    text: garment.name,
    href: may(sheet) ? sheet : `/bench/garments/${garment.id}`,
    note: `${garment.wearerName}, ${garment.commissionNumber} no. ${garment.place}`,
  };
};

/** All open garments with the days they can be promised for. */
export const datesTable = (backlog: Backlog, dates: Simulated, may: May): object => ({
  caption: 'What is promised, and what can be kept',
  columns: [
    { text: 'Garment' },
    { text: 'Promised' },
    { text: 'Even chance' },
    { text: '4 in 5' },
    { text: '9 in 10' },
    { text: 'Ready by the promised day' },
  ],
  rows: backlog.works.map((one) => ({
    cells: [
      garmentCell(one, may),
      one.dueOn
        ? { text: dateInWords(one.dueOn), note: daysInWords(daysBetween(backlog.today, one.dueOn)) }
        : { text: 'no day named' },
      ...[0.5, 0.8, 0.9].map((q) => ({ text: dateInWords(dates.at(one.garment.id, q)) })),
      {
        text: one.dueOn ? chanceInWords(dates.chanceBy(one.garment.id, one.dueOn)) : '',
        note: `${hoursToPlanBy(one.left.fourInFive)} left at 4 in 5${waitsInWords(one)}`,
      },
    ],
  })),
});

const waitsInWords = ({ work: { gaps } }: PromisedGarment): string => {
  if (gaps.length === 0) return '';
  const named = gaps.flatMap(({ on }) => (on ? [dayAndMonthInWords(on)] : []));
  const days = named.length > 0 ? ` (${listInWords(named)})` : '';
  return `, waits for ${countInWords(gaps.length, 'fitting')}${days}`;
};

/** The hours of a week in words, and where they come from. */
export const weekInWords = ({ weekly }: Backlog): string => {
  const whole = weekly.minutesOn.reduce((sum, one) => sum + one, 0);
  if (!(whole > 0))
    return 'Nobody has said how many hours a week are worked, and the bench has seen none. Say it in Rates; then dates can be named.';
  const days = weekly.minutesOn.flatMap((minutes, place) =>
    minutes >= 1 ? [`${DAYS[place]} ${hoursToPlanBy(minutes)}`] : [],
  );
  const weeks = Math.floor(weekly.weeks + 0.5);
  const bench = `what went into garments in the last ${countInWords(Math.max(1, weeks), 'week')}`;
  const card = `the rate card’s ${hoursToPlanBy(weekly.byCard)} a week`;
  const from =
    weekly.weeks === 0
      ? `${card}, since the bench has seen none yet`
      : weekly.byCard > 0
        ? `${bench}, drawn to ${card} as if that were ${WEIGHT_OF_CARD} weeks more`
        : bench;
  return `About ${hoursToPlanBy(whole)} a week go into garments: ${listInWords(days)}. This rests on ${from}.`;
};

/** Week by week: hours promised against hours there are. */
export const weeksTold = (backlog: Backlog): object => {
  const promised = backlog.works.flatMap(({ dueOn, left }) =>
    dueOn ? [{ dueOn, minutes: left.fourInFive as number }] : [],
  );
  const { weeks, later } = promisedByWeek(promised, backlog.calendar, WEEKS);
  const undated = backlog.works
    .filter(({ dueOn }) => !dueOn)
    .reduce((sum, { left }) => sum + left.fourInFive, 0);
  const tight = weeks.find(({ spare }) => spare < 0);
  return {
    picture: weeksPicture(weeks) ?? '',
    said: [
      tight
        ? `By the week of ${dateInWords(tight.from)} more is promised than there are hours: ${hoursToPlanBy(-tight.spare)} too much.`
        : 'In every week there are hours enough for what is promised until its end.',
      ...(later > 0 ? [`${hoursToPlanBy(later)} are promised for later.`] : []),
      ...(undated > 0 ? [`${hoursToPlanBy(undated)} are on garments without a day.`] : []),
    ],
    table: {
      caption: 'Hours promised against hours there are, at 4 in 5',
      columns: [
        { text: 'Week from' },
        { text: 'Promised', figure: true },
        { text: 'There are', figure: true },
        { text: 'To spare until its end', figure: true },
      ],
      rows: weeks.map(({ from, promised: own, there, spare }) => ({
        cells: [
          { text: dateInWords(from) },
          { text: hoursToPlanBy(own), figure: true },
          { text: hoursToPlanBy(there), figure: true },
          { text: hoursToPlanBy(spare), figure: true },
        ],
      })),
    },
  };
};

/** The whole page. */
export const promisesPage = (
  backlog: Backlog,
  dates: Simulated | undefined,
  spans: readonly (ClosedSpan & { readonly letters: boolean })[],
  said: {
    readonly may: May;
    readonly mayChange: boolean;
    readonly once: () => string;
    readonly trouble: string;
  },
): PageWords => {
  const { works, offered, unplanned } = backlog;
  const names = (garments: Backlog['offered']): string =>
    listInWords(garments.slice(0, 12).map(({ name, commissionNumber }) => `${name} (${commissionNumber})`));
  return {
    title: 'Promises',
    room: 'bench',
    crumbs: promisesCrumbs.slice(0, 1),
    week: weekInWords(backlog),
    trouble: said.trouble,
    none: works.length === 0,
    dates: dates && works.length > 0 ? datesTable(backlog, dates, said.may) : '',
    offered:
      offered.length > 0 ? `Offered and not ordered yet, so they hold no place: ${names(offered)}.` : '',
    unplanned: unplanned.length > 0 ? `No time is planned on ${names(unplanned)}.` : '',
    weeks: dates ? weeksTold(backlog) : '',
    mayChange: said.mayChange,
    anyClosed: spans.length > 0,
    closed: closedTable(spans, said),
  };
};

const closedTable = (
  spans: readonly (ClosedSpan & { readonly letters: boolean })[],
  { mayChange, once }: { readonly mayChange: boolean; readonly once: () => string },
): object => ({
  caption: 'Closed days to come',
  columns: [{ text: 'Days' }, { text: 'Why' }, ...(mayChange ? [{ text: 'Letters' }, { text: '' }] : [])],
  rows: spans.map((span) => ({
    cells: [
      { text: spanInWords(span), note: countInWords(span.days.length, 'day') },
      { text: span.words },
      ...(mayChange
        ? [
            span.letters
              ? { text: 'Letters', href: `${PROMISES}/letters/${span.id}` }
              : { text: 'no promise moved' },
            {
              text: '',
              press: {
                action: `${PROMISES}/closed/${span.id}/open`,
                text: 'Open again',
                label: `Open ${spanInWords(span)} again`,
                once: once(),
              },
            },
          ]
        : []),
    ],
  })),
});
