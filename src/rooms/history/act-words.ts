import { isCalendarDate } from '../../domain/kernel/calendar-date.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';
import { percentOfShare } from '../../domain/kernel/share.js';
import type { FieldChange, RowChange } from '../../storage/history/history-book.js';
import { isUuid } from '../../storage/ids.js';
import { amountInWords } from '../../web/words/amounts.js';
import { capitalised } from '../../web/words/counts.js';
import { dateInWords, instantInWords } from '../../web/words/dates.js';
import { minutesInWords } from '../../web/words/durations.js';

/** How this studio writes moments and money. */
export type Manner = { readonly zone: string; readonly locale: string; readonly currency: string };

const LONGEST = 160;
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?Z$/;

/** One of a few answers, as the rows keep it: `hand-where-it-shows`. */
const CHOICE = /^[a-z]{2,}(-[a-z]+)+$/;

/** A column's name as people read it: `tax_number` is `Tax number`. */
export const fieldInWords = (field: string): string =>
  capitalised(field.replace(/^is_|_(id|at)$/g, '').replaceAll('_', ' '));

const isDocument = (text: string): boolean => {
  if (!/^[[{]/.test(text)) return false;
  try {
    return typeof JSON.parse(text) === 'object';
  } catch {
    return false;
  }
};

/** What stood in a field, in words. */
export const valueInWords = (value: unknown, { field, kind }: FieldChange, manner: Manner): string => {
  if (value === null || value === undefined || value === '') return 'nothing';
  if (kind === 'yes-no' || typeof value === 'boolean') return value ? 'yes' : 'no';
  if (kind === 'money') return amountInWords(Money.ofMinor(Number(value), manner.currency), manner.locale);
  if (typeof value === 'number') return /minutes$/.test(field) ? minutesInWords(value) : String(value);
  if (typeof value !== 'string' || field === 'bytes') return 'a picture or paper';
  if (INSTANT.test(value)) return instantInWords(value, manner.zone);
  if (isCalendarDate(value)) return dateInWords(value);
  if (isDocument(value)) return 'details';
  if (/_share$/.test(field) && /^\d+(\.\d+)?$/.test(value)) return `${percentOfShare(new Decimal(value))} %`;
  if (CHOICE.test(value)) return value.replaceAll('-', ' ');
  const letters = [...value];
  return letters.length > LONGEST ? `${letters.slice(0, LONGEST).join('')}…` : value;
};

/** References say nothing to anybody: a UUID that became another. */
const isReadable = ({ from, to }: FieldChange): boolean =>
  ![from, to].some((value) => typeof value === 'string' && isUuid(value));

const TITLES: Record<RowChange['did'], (thing: string) => string> = {
  added: (thing) => `${thing}: added`,
  changed: (thing) => `${thing}: changed`,
  removed: (thing) => `${thing}: removed`,
};

const hasWords = ({ from, to }: FieldChange): boolean =>
  [from, to].some((value) => value !== null && value !== '');

/** One row's change as a table: from and to, or only what was added or removed. */
export const changeTable = (change: RowChange, manner: Manner): Record<string, unknown> | undefined => {
  const fields = change.fields.filter(isReadable).filter(hasWords);
  if (fields.length === 0) return undefined;
  const both = change.did === 'changed';
  const said = (field: FieldChange, side: 'from' | 'to') => ({
    text: valueInWords(field[side], field, manner),
  });
  return {
    caption: TITLES[change.did](fieldInWords(change.table)),
    columns: both
      ? [{ text: 'What' }, { text: 'From' }, { text: 'To' }]
      : [{ text: 'What' }, { text: 'Words' }],
    rows: fields.map((field) => ({
      cells: [
        { text: fieldInWords(field.field) },
        ...(both
          ? [said(field, 'from'), said(field, 'to')]
          : [said(field, change.did === 'added' ? 'to' : 'from')]),
      ],
    })),
  };
};
