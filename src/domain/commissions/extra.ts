import { causeRule } from '../costing/cause-rules.js';
import type { Cause } from '../costing/causes.js';
import type { CalendarDate, Instant } from '../kernel/calendar-date.js';
import type { Decimal } from '../kernel/decimal.js';
import { Conflict, type FieldTrouble, Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import type { Operation } from '../making/operation.js';
import type { TaxCategory } from '../papers/tax/category.js';
import { netForGross } from '../papers/tax/gross-kept.js';
import type { PricesInclude } from '../papers/tax/tax-question.js';
import type { ExpenseLine, MaterialLine } from './garment.js';

/** One line of an extra: put in (1), or taken out of the plan whole (−1). Its key is that of the line of the plan. */
export type ExtraLine<Line> = { readonly sign: 1 | -1; readonly line: Line };

/** The work, materials and expenses of an extra. */
export type ExtraWork = {
  readonly operations: readonly ExtraLine<Operation>[];
  readonly materials: readonly ExtraLine<MaterialLine>[];
  readonly expenses: readonly ExtraLine<ExpenseLine>[];
};

export const EXTRA_KINDS = ['charged', 'compliments'] as const;
export type ExtraKind = (typeof EXTRA_KINDS)[number];

export const EXTRA_STATES = ['offered', 'agreed', 'declined', 'withdrawn'] as const;
export type ExtraState = (typeof EXTRA_STATES)[number];

/** Who said what to an extra, and when. Of one that was given, nobody had to agree. */
export type ExtraAnswer = {
  readonly on: CalendarDate;
  readonly byWhom: string;
  /** In person, by letter, by telephone … */
  readonly how: string;
  readonly words: string;
};

/** A departure from the plan that is agreed, or given. Shown as `extra 1` of its commission. */
export type ExtraWords = {
  readonly commissionId: string;
  readonly garmentId: string;
  readonly cause: Cause;
  readonly kind: ExtraKind;
  /** What the client reads. */
  readonly wording: string;
  /** Before tax or with it, as `pricesInclude` says; below nought where work is taken out; nought when given. */
  readonly price: Money;
  readonly pricesInclude: PricesInclude;
  /** The tax on it, as the studio stood when it was offered. */
  readonly category: TaxCategory;
  readonly rate: Decimal | undefined;
  readonly work: ExtraWork;
  /** The garment's day before it, and with it. */
  readonly dueBefore: CalendarDate | undefined;
  readonly dueAfter: CalendarDate | undefined;
  /** The extra that this one takes back. */
  readonly takesBack: string | undefined;
};

export type Extra = ExtraWords & {
  readonly id: string;
  readonly version: number;
  /** Its number in the commission, from 1. */
  readonly number: number;
  readonly offeredOn: CalendarDate;
  readonly state: ExtraState;
  readonly answer: ExtraAnswer | undefined;
  readonly writtenAt: Instant;
};

/** What an extra is called. */
export const extraName = ({ number }: Pick<Extra, 'number'>): string => `extra ${number}`;

/** What an extra adds to the price before tax; where prices are kept with tax, the whole net nearest to it. */
export const netOfExtra = ({ price, pricesInclude, category, rate }: ExtraWords): Money =>
  pricesInclude === 'none' ? price : netForGross(price, { category, ...(rate ? { rate } : {}) }, 'rounding');

const LONGEST_WORDING = 400;
const MOST_LINES = 60;

/**
 * An extra before it is kept, checked: its cause may be an extra, the client has words to read, there is work in it, and
 * what is charged has a price.
 *
 * @returns the same extra
 * @throws Invalid with one trouble per field
 * @see design 2-costing.md section 5; test/domain/commissions/extra.test.ts
 */
export const checkExtra = <T extends ExtraWords>(extra: T): T => {
  const troubles: FieldTrouble[] = [];
  const say = (field: string, text: string) => troubles.push({ field, text });
  const { work, wording, price, kind } = extra;
  const rule = causeRule(extra.cause);
  if (!rule.mayBeExtra) say('cause', rule.follows);
  if (wording.trim() === '') say('wording', 'Write what the client will read.');
  if (wording.length > LONGEST_WORDING) say('wording', `Keep it under ${LONGEST_WORDING} letters.`);
  const lines = work.operations.length + work.materials.length + work.expenses.length;
  if (lines === 0) say('line', 'Say what is to be done, or what is left out.');
  if (lines > MOST_LINES) say('line', `An extra holds at most ${MOST_LINES} lines. Make a second one.`);
  if (kind === 'charged' && price.isZero() && !extra.takesBack)
    say('price', 'Write a price, or give it with your compliments.');
  if (kind === 'compliments' && !price.isZero()) say('price', 'What is given has no price.');
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This extra cannot be kept.', troubles);
  return extra;
};

/**
 * An offered extra with its answer. What was answered is never answered again: an agreed one is taken back by another.
 *
 * @param today the studio's day; nobody has answered tomorrow yet
 * @throws Conflict when it was answered before; Invalid when an agreement has no name, or its day is still to come
 * @see test/domain/commissions/extra.test.ts
 */
export const answeredExtra = (
  extra: Extra,
  state: Exclude<ExtraState, 'offered'>,
  answer: ExtraAnswer,
  today: CalendarDate,
): Extra => {
  if (extra.state !== 'offered') throw alreadyAnswered(extra);
  mustBeSaid(state, answer, today);
  return { ...extra, state, answer };
};

/**
 * An extra given with the studio's compliments: at no price, and shown on the invoice so. One that was offered at a price, or
 * declined, can be given all the same.
 *
 * @throws Conflict when it was agreed or withdrawn
 */
export const givenExtra = (extra: Extra, answer: ExtraAnswer, today: CalendarDate): Extra => {
  if (extra.state === 'agreed' || extra.state === 'withdrawn') throw alreadyAnswered(extra);
  if (answer.on > today) throw Invalid.field('on', STILL_TO_COME);
  return { ...extra, kind: 'compliments', price: Money.zero(extra.price.currency), state: 'agreed', answer };
};

const STILL_TO_COME = 'This day is still to come.';

const mustBeSaid = (state: ExtraState, { on, byWhom, how }: ExtraAnswer, today: CalendarDate): void => {
  const troubles: FieldTrouble[] = [];
  if (on > today) troubles.push({ field: 'on', text: STILL_TO_COME });
  if (state === 'agreed' && byWhom.trim() === '')
    troubles.push({ field: 'byWhom', text: 'Who agreed to it?' });
  if (state === 'agreed' && how.trim() === '')
    troubles.push({ field: 'how', text: 'How was it agreed: in person, by letter, by telephone?' });
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This answer cannot be kept.', troubles);
};

const alreadyAnswered = (extra: Extra): Conflict =>
  new Conflict(
    `This ${extraName(extra)} is ${extra.state} already. What was agreed is mended by an extra that takes it back.`,
    'answered-already',
  );

/** Extras in the order in which they were agreed or given: by day, then by number. */
export const agreedExtras = (extras: readonly Extra[]): Extra[] =>
  extras
    .filter(({ state }) => state === 'agreed')
    .sort((a, b) => (a.answer?.on ?? '').localeCompare(b.answer?.on ?? '') || a.number - b.number);

/**
 * The extras that stand: agreed or given, not taken back, and taking none back. These go on the invoice, those with our
 * compliments at nil price.
 *
 * @see test/domain/commissions/extra.test.ts
 */
export const standingExtras = (extras: readonly Extra[]): Extra[] => {
  const agreed = agreedExtras(extras);
  const takenBack = new Set(agreed.flatMap(({ takesBack }) => takesBack ?? []));
  return agreed.filter(({ id, takesBack }) => takesBack === undefined && !takenBack.has(id));
};

const turned = <Line>(lines: readonly ExtraLine<Line>[]): ExtraLine<Line>[] =>
  lines.map(({ sign, line }) => ({ sign: sign === 1 ? -1 : 1, line }));

/**
 * The extra that takes an agreed one back: its lines the other way round, its price negated.
 *
 * @throws Conflict when it is not agreed, was taken back before, or takes one back itself
 * @see test/domain/commissions/extra.test.ts
 */
export const takingBack = (extra: Extra, others: readonly Extra[], wording: string): ExtraWords => {
  if (extra.state !== 'agreed') throw new Conflict('Only an agreed extra can be taken back.', 'not-agreed');
  if (extra.takesBack)
    throw new Conflict('This extra takes another back; make a new one instead.', 'is-taking-back');
  if (
    others.some(
      ({ takesBack, state }) => takesBack === extra.id && state !== 'declined' && state !== 'withdrawn',
    )
  )
    throw new Conflict('There is an extra that takes this one back already.', 'taken-back-already');
  const { operations, materials, expenses } = extra.work;
  return {
    commissionId: extra.commissionId,
    garmentId: extra.garmentId,
    cause: extra.cause,
    kind: extra.kind,
    wording,
    price: extra.price.negated(),
    pricesInclude: extra.pricesInclude,
    category: extra.category,
    rate: extra.rate,
    work: { operations: turned(operations), materials: turned(materials), expenses: turned(expenses) },
    dueBefore: extra.dueAfter,
    dueAfter: extra.dueBefore,
    takesBack: extra.id,
  };
};
