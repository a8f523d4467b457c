import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { type BodyDimension, isSigned } from '../../../domain/measuring/body-dimension.js';
import { type LengthEntry, readLength } from '../../../domain/measuring/length-entry.js';
import type { MeasuredValue } from '../../../domain/measuring/measurement-set.js';
import { isChild, questionsAbout } from '../../../domain/measuring/questions.js';
import { asked, type Reading, understood } from '../../../domain/measuring/reading.js';
import type { PlanOf } from './plan-rows.js';

/** The measurements of one row: what was read, what cannot be, and what looks like a slip. */
export type MeasuredIn = {
  readonly values: MeasuredValue[];
  readonly troubles: string[];
  readonly unusual: string[];
  readonly isChild: boolean;
};

const HAS_UNIT = /[a-z"'″′”’]/i;

/** A cell in the unit chosen for its column; a unit written in the cell itself wins. */
const readCell = (cell: string, unit: string, dimension: BodyDimension): Reading<LengthEntry> => {
  const signed = isSigned(dimension);
  if (unit === 'mm' && !HAS_UNIT.test(cell)) {
    const read = readLength(`${cell} mm`, { preferred: 'cm', signed });
    return read.kind === 'ok' ? understood({ ...read.value, typed: cell }) : read;
  }
  const preferred = unit === 'in' ? 'in' : 'cm';
  const read = readLength(cell, { preferred, signed });
  if (read.kind !== 'ask' || read.meaning) return read;
  const inUnit = read.choices.filter(({ typed }) => typed.includes(` ${preferred}`));
  const [only] = inUnit;
  const meant = only && inUnit.length === 1 ? readLength(only.typed, { preferred, signed }) : undefined;
  return meant?.kind === 'ok'
    ? understood({ ...meant.value, typed: cell })
    : asked(read.sentence, read.choices);
};

/** Reads the measurements of a row. */
export const readMeasured = (
  cells: readonly string[],
  of: PlanOf,
  who: { readonly birthDate: CalendarDate | undefined; readonly takenOn: CalendarDate },
): MeasuredIn => {
  const values: MeasuredValue[] = [];
  const troubles: string[] = [];
  const unusual: string[] = [];
  const dimensions: BodyDimension[] = [];
  for (const [place, meaning] of of.meanings.entries()) {
    const cell = (cells[place] ?? '').trim();
    if (meaning?.is !== 'dimension' || cell === '') continue;
    const { dimension, unit } = meaning;
    const word = dimension.tradeWord || dimension.name;
    const read = readCell(cell, unit, dimension);
    const entry = read.kind === 'ok' ? read.value : read.kind === 'ask' ? read.meaning : undefined;
    if (values.some((value) => value.dimension === dimension.id))
      troubles.push(`${word}: two columns hold it. Keep one.`);
    else if (entry) {
      if (read.kind === 'ask') unusual.push(`${word}: ${read.sentence}`);
      dimensions.push(dimension);
      values.push({ dimension: dimension.id, entry, confirmed: read.kind === 'ask' });
    } else if (read.kind === 'ask' || read.kind === 'refuse') troubles.push(`${word}: ${read.sentence}`);
  }
  const child = isChild(who.birthDate, who.takenOn);
  const set = { id: '', wearer: '', takenOn: who.takenOn, takenBy: '', over: '', figuration: '', values };
  const questions = questionsAbout(set, undefined, { isChild: child }, dimensions);
  return {
    values: values.map((value) => ({
      ...value,
      confirmed: value.confirmed || questions.some(({ dimension }) => dimension === value.dimension),
    })),
    troubles,
    unusual: [...unusual, ...questions.map(({ sentence }) => sentence)],
    isChild: child,
  };
};
