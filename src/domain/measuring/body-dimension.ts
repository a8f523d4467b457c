import { Invalid } from '../kernel/errors.js';
import { SURVEY } from './survey-limits.js';

/** What a dimension goes along or around; a `correction` is signed (shoulder drop). */
export const DIMENSION_SORTS = ['girth', 'length', 'width', 'correction'] as const;
export type DimensionSort = (typeof DIMENSION_SORTS)[number];

/** One thing that is measured on a body. */
export type BodyDimension = {
  /** A short stable name such as `chest-girth`. */
  readonly id: string;
  /** The name of ISO 8559-1 where there is one, else the trade's word. */
  readonly name: string;
  /** Is `name` the standard's? */
  readonly fromStandard: boolean;
  /** The trade's word beside it: *chest*, *seat*, *half back*. */
  readonly tradeWord: string;
  readonly sort: DimensionSort;
  /** How the tape goes, in a few words. */
  readonly how: string;
  /** The column of the survey that measures the same thing, where one does. */
  readonly survey?: string;
  /** Where the name and the way of taking it come from. */
  readonly source: string;
};

/** May this dimension be below nought? */
export const isSigned = (dimension: BodyDimension): boolean => dimension.sort === 'correction';

/** One line as it stands in a list of dimensions: plain texts. */
export type DimensionLine = Readonly<Record<keyof BodyDimension, string>>;

const ID = /^[a-z][a-z0-9-]{0,59}$/;

/**
 * A body dimension out of plain texts.
 *
 * @throws Invalid naming the field when a name is missing or too long, the sort is unknown or the survey has no such column
 */
export const bodyDimension = (line: DimensionLine): BodyDimension => {
  const { id, name, tradeWord, how, source, survey } = line;
  if (!ID.test(id))
    throw Invalid.field('id', `“${id.slice(0, 40)}” is no short name: use small letters and hyphens.`);
  if (name.trim() === '' || name.length > 120)
    throw Invalid.field('name', 'A dimension needs a name of at most 120 letters.');
  const sort = DIMENSION_SORTS.find((known) => known === line.sort);
  if (!sort) throw Invalid.field('sort', `A dimension is one of: ${DIMENSION_SORTS.join(', ')}.`);
  if (survey !== '' && !SURVEY[survey])
    throw Invalid.field('survey', `The survey has no column “${survey.slice(0, 40)}”.`);
  const fromStandard = line.fromStandard === 'yes';
  return { id, name, fromStandard, tradeWord, sort, how, source, ...(survey && { survey }) };
};
