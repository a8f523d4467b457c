import { z } from 'zod';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Money } from '../../../domain/kernel/money.js';
import { MONEY_OUT_KIND_NAMES } from '../../../domain/money-out/money-out.js';
import { date, line, oneOf, optionalDate, optionalLine } from '../../../web/fields/fields.js';
import type { FieldKit } from '../../../web/fields/kits.js';

/** A bill that is not cloth, as a form or a program says it. */
export const MoneyOutFields = (kit: FieldKit) =>
  z.strictObject({
    kind: oneOf(MONEY_OUT_KIND_NAMES, 'Choose what it was for.'),
    on: date('Which day does the bill carry?'),
    amount: kit.money('How much, without tax that comes back?'),
    tax: kit.optionalMoney().transform((said) => said ?? Money.zero(kit.currency)),
    payee: line('To whom?', 200),
    paperNumber: optionalLine(100),
    what: optionalLine(400),
    garment: optionalLine(60).transform((id) => id || undefined),
    paidOn: optionalDate(),
    how: optionalLine(100),
  });
export type MoneyOutSaid = z.output<ReturnType<typeof MoneyOutFields>>;

/** A bill or a credit as it is kept: `purchase/0190…`, `sent-back/0190…`, `money-out/0190…`, `outwork/0190…`. */
const ABOUT = /^(purchase|sent-back|money-out|outwork)\/[\w-]{1,60}$/;

/** That something was paid. @param today nobody has paid tomorrow */
export const PayFields = (today: CalendarDate) =>
  z.strictObject({
    about: line('Which bill?', 80).refine((text) => ABOUT.test(text), 'There is no such bill.'),
    paidOn: date('On which day?').refine((day) => day <= today, 'This day is still to come.'),
    how: optionalLine(100),
  });

/** That a mark of payment is taken back. */
export const UnpayFields = z.strictObject({
  about: line('Which bill?', 80).refine((text) => ABOUT.test(text), 'There is no such bill.'),
});

/** Why a bill is taken back. */
export const ReverseBillFields = z.strictObject({ reason: line('Say why, in a word or two.', 400) });

/** A span of days; what cannot be read is this year. */
export const spanOf = (from: string, to: string, today: CalendarDate): [CalendarDate, CalendarDate] => {
  const read = (text: string, otherwise: CalendarDate): CalendarDate =>
    date().safeParse(text).data ?? otherwise;
  const [begin, end] = [read(from, `${today.slice(0, 4)}-01-01`), read(to, today)];
  return begin <= end ? [begin, end] : [end, begin];
};
