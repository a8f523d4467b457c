import { z } from 'zod';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { type FieldTrouble, Invalid } from '../../../domain/kernel/errors.js';
import type { Money } from '../../../domain/kernel/money.js';
import type { PaperStanding } from '../../../domain/papers/settlement/account.js';
import type { Part } from '../../../domain/papers/settlement/allocating.js';
import { date, line, optionalLine, optionalLines } from '../../../web/fields/fields.js';
import type { FieldKit } from '../../../web/fields/kits.js';
import type { Typed } from '../../../web/forms/typed.js';

const HOW = 'Say how it was paid: by transfer, in coin, with a card.';
const key = () => optionalLine(60).transform((id) => id || undefined);

/** A day that is not still to come. */
const pastDay = (today: CalendarDate) =>
  date('On which day?').refine((day) => day <= today, 'This day is still to come.');

const aboveNought = (kit: FieldKit, missing: string) =>
  kit.money(missing).refine((amount) => amount.minor > 0, 'Write an amount above nought.');

const moneyFields = (kit: FieldKit, today: CalendarDate) => ({
  on: pastDay(today).default(today),
  amount: aboveNought(kit, 'How much?'),
  how: line(HOW, 100),
  note: optionalLines(400),
});

/** How much of a payment goes to each open paper, by key: `part.0190…`. Left empty, those due first are settled first. */
const PART = /^part\.(.{1,60})$/;

/** A payment as a form says it. */
export const PaymentFields = (kit: FieldKit, today: CalendarDate, open: readonly PaperStanding[]) =>
  z.strictObject({
    ...moneyFields(kit, today),
    commission: key(),
    ...Object.fromEntries(open.map(({ id }) => [`part.${id}`, kit.optionalMoney()])),
  });

const SentParts = (kit: FieldKit) =>
  z
    .array(
      z.strictObject({
        paperId: line('Name the paper.', 60),
        amount: aboveNought(kit, 'How much of it?'),
      }),
    )
    .max(200, 'At most 200 parts.');

/** A payment or a refund as a program sends it. */
export const SentPayment = (kit: FieldKit, today: CalendarDate) =>
  z
    .strictObject({
      kind: z.enum(['payment', 'refund']).default('payment'),
      clientId: line('Whose payment is it?', 60),
      commissionId: key(),
      ...moneyFields(kit, today),
      /** Left out: those due first are settled first. Empty: all of it is held for the client. */
      parts: SentParts(kit).optional(),
    })
    .refine(({ kind, parts }) => kind === 'payment' || parts === undefined, {
      path: ['parts'],
      message: 'A refund is taken from what is held; it has no parts.',
    });

/** What a payment's money is put to instead. */
export const SentMove = (kit: FieldKit) => z.strictObject({ parts: SentParts(kit) });

export const RefundFields = (kit: FieldKit, today: CalendarDate) => z.strictObject(moneyFields(kit, today));

export const ReverseFields = (today: CalendarDate) =>
  z.strictObject({
    reason: line('Give the reason in a few words.', 400),
    on: pastDay(today).default(today),
  });

/** To which papers a payment's money is put instead. */
export const MoveFields = (kit: FieldKit, open: readonly PaperStanding[]) =>
  z.strictObject(Object.fromEntries(open.map(({ id }) => [`part.${id}`, kit.optionalMoney()])));

/** The parts that were written into a form, in the order of the papers; undefined when none was. */
export const partsIn = (read: Readonly<Record<string, unknown>>): Part[] | undefined => {
  const parts = Object.entries(read).flatMap(([name, amount]) => {
    const to = PART.exec(name)?.[1];
    return to && amount ? [{ to, amount: amount as Money }] : [];
  });
  return parts.length > 0 ? parts : undefined;
};

/** Troubles with parts, named by the form's own fields. */
export const besideParts = async <T>(
  parts: readonly Part[] | undefined,
  act: () => Promise<T>,
): Promise<T> => {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    const fields = error.fields.map(({ field, text }): FieldTrouble => {
      const place = /^parts\.(\d+)\.amount$/.exec(field)?.[1];
      const to = place === undefined ? undefined : parts?.[Number(place)]?.to;
      return { field: to ? `part.${to}` : field === 'parts' ? 'amount' : field, text };
    });
    throw new Invalid(error.message, fields, error.code);
  }
};

/** What papers a form asks about: the open ones, and those whose part was typed before. */
export const asksAbout = (papers: readonly PaperStanding[], typed: Typed = {}): PaperStanding[] =>
  papers
    .filter(({ id, open }) => open.minor > 0 || (typed[`part.${id}`] ?? '') !== '')
    .sort((a, b) => a.due.localeCompare(b.due))
    .slice(0, 100);
