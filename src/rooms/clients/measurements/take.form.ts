import { Invalid } from '../../../domain/kernel/errors.js';
import { FIGURATION_WORDS } from '../../../domain/measuring/figuration.js';
import { Asked } from '../../../web/forms/form.js';
import { parse } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { MeasurementFields, type MeasurementWords } from './measurement.form.js';
import type { Question } from './read-values.js';
import { AskedAboutMeasurements } from './take-measurements.js';

/** Empty rows for what no list names. */
export const EXTRA_ROWS = [0, 1, 2, 3];

/** The name of a figuration word's tick: `fig.head-forward`. */
export const tickOf = (word: string): string => `fig.${word.replaceAll(' ', '-')}`;

/** Figuration as it is kept: the words ticked and the lines written, one a line. */
export const figurationOf = (typed: Typed): string =>
  [...FIGURATION_WORDS.filter((word) => typed[tickOf(word)] === 'yes'), typed.figuration ?? '']
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .join('\n');

/** The other way round: kept figuration as ticks and free lines. */
export const figurationFields = (figuration: string): Record<string, string> => {
  const lines = figuration.split('\n').filter((line) => line !== '');
  const ticked = lines.filter((line) => FIGURATION_WORDS.includes(line));
  const free = lines.filter((line) => !FIGURATION_WORDS.includes(line));
  return {
    ...Object.fromEntries(ticked.map((word): [string, string] => [tickOf(word), 'yes'])),
    figuration: free.join('\n'),
  };
};

/** What was answered to the question about a field; an answer counts only while the field says what it said when asked. */
export const answerTo = (typed: Typed, field: string, present: string): string =>
  typed[`asked.${field}`] === present ? (typed[`said.${field}`] ?? '') : '';

type SaidRow = { readonly value: string; readonly name: string; readonly words: object };

const rowsOf = (typed: Typed): SaidRow[] => {
  const listed = Object.keys(typed)
    .filter((field) => field.startsWith('v.') && typed[field]?.trim() !== '')
    .map((field) => ({ value: field, name: field, words: { dimension: field.slice(2) } }));
  const extra = EXTRA_ROWS.flatMap((row): SaidRow[] => {
    const [value, name] = [`extra.${row}.value`, `extra.${row}.name`];
    const said = (typed[name] ?? '').trim();
    if (said === '' && (typed[value] ?? '').trim() === '') return [];
    return [
      { value, name, words: { name: said, isNew: answerTo(typed, name, typed[name] ?? '') === 'yes' } },
    ];
  });
  return [...listed, ...extra];
};

const readRows = (typed: Typed, rows: readonly SaidRow[]): MeasurementWords => {
  const said = (field: string): string => typed[field] ?? '';
  const figuration = figurationOf(typed);
  return parse(MeasurementFields, {
    takenOn: said('takenOn'),
    takenBy: said('takenBy'),
    over: said('over'),
    guardian: said('guardian'),
    garmentType: said('garmentType'),
    insteadOf: said('insteadOf'),
    figuration,
    figurationConfirmed: answerTo(typed, 'figuration', figuration) === 'yes',
    values: rows.map(({ value, words }) => {
      const answer = answerTo(typed, value, said(value));
      const settled = answer === 'yes' ? { confirmed: true } : { choice: answer };
      return { ...words, typed: said(value), ...settled };
    }),
  });
};

/**
 * Reads the form and carries out what it asks; troubles and questions come back under the names of the form's fields.
 *
 * @param questions is filled with what was asked, by field, so that the page can offer the answers
 */
export const inFormWords = async <T>(
  typed: Typed,
  questions: Map<string, Question>,
  act: (words: MeasurementWords) => Promise<T>,
): Promise<T> => {
  const rows = rowsOf(typed);
  const renamed = (field: string): string => fieldIn(rows, field);
  try {
    const lonely = rows.find(({ value }) => (typed[value] ?? '').trim() === '');
    if (lonely)
      throw Invalid.field(lonely.value, 'Write the measurement beside its name, or take the name away.');
    return await act(readRows(typed, rows));
  } catch (error) {
    if (error instanceof AskedAboutMeasurements) {
      for (const one of error.about) questions.set(renamed(one.field), one);
      throw new Asked(
        error.questions.map((one) => ({
          ...one,
          field: renamed(one.field),
          confirmName: `said.${renamed(one.field)}`,
        })),
      );
    }
    if (!(error instanceof Invalid)) throw error;
    const fields = error.fields.map(({ field, text }) => ({ field: renamed(field), text }));
    throw new Invalid(error.message, fields, error.code);
  }
};

const fieldIn = (rows: readonly SaidRow[], field: string): string => {
  const [, place, part] = /^values\.(\d+)\.(\w+)$/.exec(field) ?? [];
  const row = rows[Number(place)];
  if (row) return part === 'name' || part === 'dimension' ? row.name : row.value;
  const twice = field.startsWith('values.') ? field.slice('values.'.length) : undefined;
  if (twice) return rows.findLast(({ name }) => name.startsWith('extra.'))?.value ?? `v.${twice}`;
  return field === 'values' ? '' : field;
};
