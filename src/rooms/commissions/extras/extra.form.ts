import { z } from 'zod';
import { EXTRA_KINDS } from '../../../domain/commissions/extra.js';
import { CAUSES } from '../../../domain/costing/causes.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { isMode, isStage, MODES, STAGES } from '../../../domain/making/mode.js';
import { date, line, oneOf, optionalDate, optionalLine, optionalLines } from '../../../web/fields/fields.js';
import { sentKit, typedAs } from '../../../web/fields/kits.js';
import { parse, parseForm } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { readMoney } from '../../../web/words/amounts.js';
import { readDate } from '../../../web/words/dates.js';
import { ExpenseForm, ExpenseSent, MaterialForm, MaterialSent } from '../materials/material.form.js';
import type { LineSaid, WorkSaid } from './extra-work.js';

/** As many lines of work, and as many taken out, as one form holds. */
export const LINES = [0, 1, 2] as const;
export const OUTS = [0, 1] as const;

/** The fields in which the work of an extra is written. */
export const WORK_FIELDS = [
  ...LINES.flatMap((place) => [`lines.${place}.line`, `lines.${place}.minutes`]),
  'stage',
  'mode',
  ...OUTS.map((place) => `out.${place}`),
  'material',
  'quantity',
  'unitCost',
  'expense',
  'amount',
];

const filled = (typed: Typed, name: string): string => (typed[name] ?? '').trim();

/** The work of an extra as people write it. @throws Invalid beside the fields of a material or an expense */
export const readWork = (typed: Typed, studio: Studio): WorkSaid => {
  const [stage, mode] = [filled(typed, 'stage'), filled(typed, 'mode')];
  const lines = LINES.flatMap((place): LineSaid[] => {
    const at = { line: `lines.${place}.line`, minutes: `lines.${place}.minutes` };
    const said = filled(typed, at.line);
    if (said === '' && filled(typed, at.minutes) !== '')
      throw Invalid.field(at.line, 'What takes these minutes? Write a few words.');
    if (said === '') return [];
    return [
      {
        at,
        line: said,
        minutes: filled(typed, at.minutes),
        stage: isStage(stage) ? stage : 'make',
        mode: isMode(mode) ? mode : 'hand',
      },
    ];
  });
  return {
    lines,
    materials: ['material', 'quantity', 'unitCost'].some((name) => filled(typed, name) !== '')
      ? [materialIn(typed, studio)]
      : [],
    expenses: ['expense', 'amount'].some((name) => filled(typed, name) !== '')
      ? [parse(ExpenseForm(studio), { expense: typed.expense ?? '', amount: typed.amount ?? '' })]
      : [],
    out: [...new Set(OUTS.map((place) => filled(typed, `out.${place}`)).filter((id) => id !== ''))],
  };
};

const materialIn = (typed: Typed, studio: Studio) => {
  try {
    return parse(MaterialForm(studio), {
      name: typed.material ?? '',
      quantity: typed.quantity ?? '',
      unitCost: typed.unitCost ?? '',
      waste: '0',
    });
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    const named = error.fields.map(({ field, text }) => ({
      field: field === 'name' ? 'material' : field,
      text,
    }));
    throw new Invalid(error.message, named);
  }
};

/** What is said with an offer, beside its work. */
export const OfferFields = ({ identity }: Studio, today: CalendarDate) =>
  z.object({
    kind: oneOf(EXTRA_KINDS).default('charged'),
    wording: line('Write what the client will read.', 400),
    price: typedAs((typed) => readMoney(typed, identity, { mayBeNegative: true })),
    dueAfter: typedAs((typed) => readDate(typed, { today, locale: identity.locale, comes: true })),
  });

export const ANSWER_ACTS = ['agreed', 'declined', 'given', 'withdrawn'] as const;

/** What was answered to an extra, as the workroom puts it down. */
export const AnswerFields = ({ identity }: Studio, today: CalendarDate) =>
  z.strictObject({
    act: oneOf(ANSWER_ACTS, 'Say how it was answered.'),
    byWhom: optionalLine(400),
    how: optionalLine(200),
    on: typedAs(
      (typed) => readDate(typed, { today, locale: identity.locale }),
      'Give the day of the answer.',
    ),
    words: optionalLines(2000),
  });

/** What the client writes on the card. */
export const CardFields = z.strictObject({
  byWhom: line('Please write your name.', 400),
  how: line('Say how it was agreed.', 200),
});

export const TakeBackFields = z.strictObject({
  wording: line('Write what the client will read.', 400),
});

const LineSent = z.strictObject({
  line: line('Say what is to be done.', 200),
  minutes: z.union([z.string(), z.number()]).transform(String).default(''),
  stage: oneOf(STAGES).default('make'),
  mode: oneOf(MODES).default('hand'),
});

/** An extra as a program sends it; price, wording and day are worked out where they are left out. */
export const ExtraSent = (currency: string) =>
  z
    .strictObject({
      garmentId: line('Name the garment by id.', 60),
      cause: oneOf(CAUSES, 'Name one of the six causes.'),
      kind: oneOf(EXTRA_KINDS).default('charged'),
      wording: optionalLine(400),
      price: sentKit(currency).optionalMoney(),
      /** What is taken off the price, where work is taken out. */
      priceOff: sentKit(currency).optionalMoney(),
      dueAfter: optionalDate(),
      operations: z.array(LineSent).max(20, 'At most 20 of these.').default([]),
      materials: z.array(MaterialSent(currency)).max(20, 'At most 20 of these.').default([]),
      expenses: z.array(ExpenseSent(currency)).max(20, 'At most 20 of these.').default([]),
      out: z.array(z.string().max(60)).max(20, 'At most 20 of these.').default([]),
    })
    .refine(
      ({ operations, materials, expenses, out }) =>
        operations.length + materials.length + expenses.length + out.length > 0,
      { path: ['operations'], message: 'Say what is to be done, or what is left out.' },
    )
    .transform(({ operations, materials, expenses, out, priceOff, price, ...said }) => ({
      ...said,
      price: price ?? priceOff?.negated(),
      work: {
        lines: operations.map(
          (one, place): LineSaid => ({
            ...one,
            at: { line: `operations.${place}.line`, minutes: `operations.${place}.minutes` },
          }),
        ),
        materials,
        expenses,
        out,
      } satisfies WorkSaid,
    }));

/** An answer as a program sends it. */
export const AnswerSent = z.strictObject({
  act: oneOf(ANSWER_ACTS, 'Say how it was answered.'),
  byWhom: optionalLine(400),
  how: optionalLine(200),
  on: date('Give the day of the answer.'),
  words: optionalLines(2000),
});

/** Only what an offer says beside its work. */
export const offerIn = (typed: Typed, studio: Studio, today: CalendarDate) =>
  parseForm(OfferFields(studio, today), typed);
