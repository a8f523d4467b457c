import { z } from 'zod';
import type { TypedCorrection } from '../../../domain/fitting/correction.js';
import { MOST_CORRECTIONS } from '../../../domain/fitting/correction.js';
import type { FittingKind } from '../../../domain/fitting/fitting.js';
import {
  FITTING_KINDS,
  type Fitting,
  LONGEST_FITTING,
  USUAL_FITTING,
} from '../../../domain/fitting/fitting.js';
import {
  date,
  line,
  oneOf,
  optionalDate,
  optionalLine,
  optionalLines,
  whole,
  yesNo,
} from '../../../web/fields/fields.js';
import { typedAs } from '../../../web/fields/kits.js';
import { closedUp } from '../../../web/forms/closed-up.js';
import { isConfirmed, parse } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { minutesForField, readDuration } from '../../../web/words/durations.js';
import { readTimeOfDay } from '../../../web/words/times.js';

/** When, of what kind, and of which garments. */
export type PlannedSaid = {
  readonly kind: FittingKind;
  readonly on: string;
  readonly at: string;
  readonly minutes: number;
  readonly garmentIds: readonly string[];
  readonly notes: string;
  /** Is it meant to be at the same time as another? */
  readonly besideAnother: boolean;
};

/** The fitting that follows; none where no day was said. */
export type NextSaid = {
  readonly on: string;
  readonly at: string;
  readonly kind: FittingKind;
  readonly besideAnother: boolean;
};

/** What a fitting showed. */
export type HeldSaid = {
  readonly on: string;
  readonly present: string;
  readonly worn: string;
  readonly guardian: string;
  readonly notes: string;
  readonly patternChanged: boolean;
  readonly patternWords: string;
  readonly corrections: readonly TypedCorrection[];
  readonly next: NextSaid | undefined;
};

/** Why it was not held, and when instead. */
export type NotHeldSaid = {
  readonly state: 'missed' | 'put-off';
  readonly reason: string;
  readonly next: NextSaid | undefined;
};

const MISSING_TIME = 'Give the time, such as 14:30.';
const time = () => typedAs(readTimeOfDay, MISSING_TIME) as z.ZodType<string>;
const ids = () => z.array(z.string().max(60)).max(50).default([]);
const kind = () => oneOf(FITTING_KINDS, 'Choose the kind of fitting.');

const plannedFields = <M extends z.ZodType<number>>(minutes: M) => ({
  kind: kind(),
  on: date('Give the day.'),
  at: time(),
  minutes,
  garmentIds: ids(),
  notes: optionalLines(4000),
  besideAnother: yesNo(),
});

const typedMinutes = () =>
  typedAs(
    (typed) => readDuration(typed, { bare: 'minutes' }),
    'How long? Write it like 45.',
  ) as z.ZodType<number>;
const sentMinutes = () => whole(5, LONGEST_FITTING, 'Send minutes such as 45.').default(USUAL_FITTING);

const nextFields = {
  nextOn: optionalDate(),
  nextAt: typedAs(readTimeOfDay),
  nextKind: z.union([kind(), z.literal('')]).default(''),
};

const nextOf = (
  said: { nextOn?: string | undefined; nextAt?: string | undefined; nextKind: FittingKind | '' },
  ctx: z.RefinementCtx,
  besideAnother: boolean,
): NextSaid | undefined => {
  if (!said.nextOn) {
    if (said.nextAt) ctx.addIssue({ code: 'custom', path: ['nextOn'], message: 'On which day?' });
    return undefined;
  }
  if (!said.nextAt) ctx.addIssue({ code: 'custom', path: ['nextAt'], message: MISSING_TIME });
  if (!said.nextKind)
    ctx.addIssue({ code: 'custom', path: ['nextKind'], message: 'Choose the kind of the next fitting.' });
  return { on: said.nextOn, at: said.nextAt ?? '00:00', kind: said.nextKind || 'forward', besideAnother };
};

const heldFields = {
  on: date('On which day was it held?'),
  present: optionalLine(400),
  worn: optionalLine(400),
  guardian: optionalLine(200),
  notes: optionalLines(4000),
  patternChanged: yesNo(),
  patternWords: optionalLines(1000),
  besideAnother: yesNo(),
  ...nextFields,
};

const correction = z.strictObject({
  garmentId: z.string().max(60).default(''),
  place: z.string().max(400).default(''),
  direction: z.string().max(40).default(''),
  amount: z.string().max(60).default(''),
});

const Held = z
  .strictObject({
    ...heldFields,
    corrections: z
      .array(correction)
      .max(MOST_CORRECTIONS + 40)
      .default([]),
  })
  .transform(
    ({ nextOn, nextAt, nextKind, besideAnother, ...said }, ctx): HeldSaid => ({
      ...said,
      next: nextOf({ nextOn, nextAt, nextKind }, ctx, besideAnother),
    }),
  );

const NotHeld = z
  .strictObject({
    state: oneOf(['missed', 'put-off'], 'Was it missed, or put off?'),
    reason: line('Write why, in a few words.', 1000),
    besideAnother: yesNo(),
    ...nextFields,
  })
  .transform(
    ({ nextOn, nextAt, nextKind, besideAnother, ...said }, ctx): NotHeldSaid => ({
      ...said,
      next: nextOf({ nextOn, nextAt, nextKind }, ctx, besideAnother),
    }),
  );

/** As programs send them. */
export const PlannedSent = z.strictObject(plannedFields(sentMinutes()));
export const HeldSent = Held;
export const NotHeldSent = NotHeld;

/** The fields of a correction's row. */
export const CORRECTION_FIELDS = ['garmentId', 'place', 'direction', 'amount'];
const TELLING = ['place', 'direction', 'amount'];
const TICK = 'garment.';

const carried = (typed: Typed): Record<string, string> =>
  Object.fromEntries(
    Object.entries(typed).filter(
      ([name]) =>
        !['once', 'version', 'commit'].includes(name) &&
        !name.startsWith('confirm.') &&
        !name.startsWith(TICK),
    ),
  );
const isMeant = (typed: Typed): boolean =>
  isConfirmed(typed, 'confirm.at') || isConfirmed(typed, 'confirm.nextAt');

/** Reads the form that plans a fitting, or moves one. @throws Invalid */
export const readPlanned = (typed: Typed): PlannedSaid =>
  parse(z.strictObject(plannedFields(typedMinutes())), {
    ...carried(typed),
    garmentIds: Object.entries(typed).flatMap(([name, said]) =>
      name.startsWith(TICK) && said === 'yes' ? [name.slice(TICK.length)] : [],
    ),
    besideAnother: isMeant(typed),
  });

/** The form of a held fitting with its rows closed up, so that errors name the lines that are shown again. */
export const tidyCorrections = (typed: Typed): Typed => closedUp(typed, 'corrections', TELLING).typed;

/** Reads the form of a held fitting. @throws Invalid */
export const readHeld = (typed: Typed): HeldSaid => {
  const { rows, rest } = closedUp(typed, 'corrections', TELLING);
  return parse(Held, { ...carried(rest), corrections: rows, besideAnother: isMeant(typed) });
};

/** Reads why a fitting was not held. @throws Invalid */
export const readNotHeld = (typed: Typed): NotHeldSaid =>
  parse(NotHeld, { ...carried(typed), besideAnother: isMeant(typed) });

/** A fitting as the fields of the form that plans it. */
export const typedPlanned = (fitting: Fitting): Record<string, string> => ({
  kind: fitting.kind,
  on: fitting.on,
  at: fitting.at,
  minutes: minutesForField(fitting.minutes),
  notes: fitting.notes,
  ...Object.fromEntries(fitting.garmentIds.map((id) => [`${TICK}${id}`, 'yes'])),
});
