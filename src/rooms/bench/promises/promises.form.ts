import { z } from 'zod';
import { MAKES } from '../../../domain/making/mode.js';
import { date, line, oneOf, optionalLine, whole } from '../../../web/fields/fields.js';
import { typedAs } from '../../../web/fields/kits.js';
import { parse } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { readDuration } from '../../../web/words/durations.js';
import type { MoveSaid, SpanSaid } from './close-days.js';

const span = {
  from: date('From which day?'),
  to: date('Until which day?'),
  words: line('Say why in a word or two; only you see it.', 200),
};

export const SpanFields = z.strictObject(span);

/** What programs send to close days: the span and the promises to move. */
export const CloseFields = z.strictObject({
  ...span,
  move: z
    .array(
      z.strictObject({
        garmentId: line('Name the garment.', 60),
        dueOn: date('Promise which day?'),
        version: whole(1, 999_999_999).optional(),
      }),
    )
    .max(300, 'At most 300 promises at once.')
    .default([]),
});

const MOST_MINUTES = 600_000;

/** A garment somebody would like to have, as a page asks for it. */
export const RushFields = z.strictObject({
  typeId: line('Choose a garment type.', 60),
  make: oneOf(MAKES).default('hand-where-it-shows'),
  hours: typedAs((typed) => readDuration(typed, { bare: 'hours', askAbove: MOST_MINUTES })).optional(),
  before: optionalLine(60).transform((before) => before || 'last'),
});

/** The same as programs ask for it. */
export const RushSent = z.strictObject({
  typeId: line('Send a garment type.', 60),
  make: oneOf(MAKES).default('hand-where-it-shows'),
  minutes: whole(1, MOST_MINUTES).optional(),
  before: optionalLine(60).transform((before) => before || 'last'),
});

/** The promises ticked on the page, with their new days. @throws Invalid naming each day that is none */
export const readMoves = (typed: Typed): { readonly said: SpanSaid; readonly moves: readonly MoveSaid[] } => {
  const { from, to, words } = typed;
  const said = parse(SpanFields, { from, to, words });
  const ticked = Object.entries(typed).flatMap(([name, value]) =>
    name.startsWith('move.') && value === 'yes' ? [name.slice('move.'.length)] : [],
  );
  const dates = z.strictObject(
    Object.fromEntries(ticked.map((id) => [`date.${id}`, date('Promise which day?')])),
  );
  const days = parse(dates, Object.fromEntries(ticked.map((id) => [`date.${id}`, typed[`date.${id}`]])));
  return {
    said,
    moves: ticked.map((garmentId) => ({
      garmentId,
      dueOn: days[`date.${garmentId}`] ?? '',
      seen: /^\d{1,9}$/.test(typed[`seen.${garmentId}`] ?? '')
        ? Number(typed[`seen.${garmentId}`])
        : undefined,
    })),
  };
};
