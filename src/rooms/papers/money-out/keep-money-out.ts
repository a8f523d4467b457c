import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict, Invalid, NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { checkMoneyOut, type MoneyOut, toPay } from '../../../domain/money-out/money-out.js';
import { outworkComesTo } from '../../../domain/outwork/outwork.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { comesTo, purchaseBook } from '../../../storage/books/cloth-room/purchase-book.js';
import { supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { moneyOutBook } from '../../../storage/books/money-out/money-out-book.js';
import { billSubject, paidOutBook } from '../../../storage/books/money-out/paid-out-book.js';
import { supplierCredits } from '../../../storage/books/money-out/supplier-credits.js';
import { outworkBook, outworkSubject } from '../../../storage/books/outwork/outwork-book.js';
import { outworkerBook } from '../../../storage/books/outwork/outworker-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading, Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import type { MoneyOutSaid } from './money-out.form.js';

/** The garment an expense is put to; it must be open. @throws Invalid beside the field */
const garmentOf = async (writing: Writing, id: string | undefined) => {
  if (!id) return { commissionId: undefined, garmentId: undefined, garmentName: '' };
  try {
    const garment = await garmentBook.one(writing, id);
    await garmentMarkBook.mustBeOpen(writing, id);
    return { commissionId: garment.commissionId, garmentId: id, garmentName: garment.name };
  } catch (error) {
    if (error instanceof NotFound) throw Invalid.field('garment', 'There is no such garment.');
    if (error instanceof Conflict) throw Invalid.field('garment', error.message);
    throw error;
  }
};

/** Puts down a bill that is not cloth; marks it as paid where a day is given. @throws Invalid per field */
export const putDownBill = (
  unit: UnitOfWork,
  visit: Visit,
  { garment, paidOn, how, ...said }: MoneyOutSaid,
  today: CalendarDate,
): Promise<Done<MoneyOut>> =>
  unit.write(visit, async (writing) => {
    checkMoneyOut({ ...said, garmentId: garment, paidOn }, today);
    const bill = await moneyOutBook.add(writing, {
      ...said,
      ...(await garmentOf(writing, garment)),
      ticketId: undefined,
    });
    if (paidOn) await paidOutBook.pay(writing, billSubject(bill.id), paidOn, how);
    const { locale } = (await studioBook.the(writing)).identity;
    writing.says(
      `Put down a bill of ${moneyInWords(toPay(bill), locale)} from ${bill.payee}`,
      billSubject(bill.id),
    );
    return bill;
  });

/** Takes a bill back by another; both stay, and nothing of it is owed. @throws Conflict when it was reversed already */
export const reverseBill = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  reason: string,
): Promise<Done<MoneyOut>> =>
  unit.write(visit, async (writing) => {
    const bill = await moneyOutBook.one(writing, id);
    if (bill.garmentId) await mustStandOpen(writing, bill.garmentId);
    const reversal = await moneyOutBook.reverse(writing, id, reason);
    const { locale } = (await studioBook.the(writing)).identity;
    writing.says(
      `Reversed the bill of ${moneyInWords(toPay(bill), locale)} from ${bill.payee}: ${reason}`,
      billSubject(id),
    );
    return reversal;
  });

/** A closed garment's cost is frozen; one that was taken out of its commission has none. */
const mustStandOpen = async (writing: Writing, garmentId: string): Promise<void> => {
  if ((await garmentMarkBook.standing(writing, garmentId)) === 'closed')
    await garmentMarkBook.mustBeOpen(writing, garmentId);
};

/** Something that can be paid, in words. */
export type Payable = { readonly to: string; readonly amount: Money; readonly what: string };

/** What a subject is, whom it is owed to and how much. @throws NotFound */
export const payable = async (reading: Reading, about: string): Promise<Payable> => {
  const [kind, id = ''] = about.split('/');
  if (kind === 'purchase') {
    const purchase = await purchaseBook.one(reading, id);
    const { name } = await supplierBook.one(reading, purchase.supplierId);
    return { to: name, amount: comesTo(purchase), what: 'cloth and trimmings' };
  }
  if (kind === 'sent-back') {
    const { supplierName, amount } = await supplierCredits.one(reading, id);
    return { to: supplierName, amount, what: 'cloth and trimmings sent back' };
  }
  if (kind === 'outwork') {
    const ticket = await outworkBook.one(reading, id);
    const { name } = await outworkerBook.one(reading, ticket.outworkerId);
    return {
      to: name,
      amount: outworkComesTo(ticket),
      what: `${ticket.number}, ${ticket.work}: ${ticket.garmentName}`,
    };
  }
  const bill = await moneyOutBook.one(reading, id);
  return { to: bill.payee, amount: toPay(bill), what: bill.what };
};

/** Pays an outworker: the ticket becomes a direct expense of its garment. @throws Conflict when it is out or paid already */
const payOutwork = async (writing: Writing, id: string, on: CalendarDate): Promise<MoneyOut> => {
  const ticket = await outworkBook.one(writing, id);
  if (!ticket.backOn)
    throw new Conflict('This work is still out. Put down when it came back first.', 'still-out');
  if ((await moneyOutBook.ofTickets(writing, [id])).size > 0)
    throw new Conflict('This is marked as paid already.', 'paid-already');
  const amount = outworkComesTo(ticket);
  if (amount.isZero()) throw new Conflict('Nothing is owed for this work.', 'nothing-owed');
  await mustStandOpen(writing, ticket.garmentId);
  const { name } = await outworkerBook.one(writing, ticket.outworkerId);
  const bill = await moneyOutBook.add(writing, {
    kind: 'outworker',
    on,
    amount,
    tax: Money.zero(amount.currency),
    payee: name,
    paperNumber: ticket.number,
    what: ticket.work,
    commissionId: ticket.commissionId,
    garmentId: ticket.garmentId,
    garmentName: ticket.garmentName,
    ticketId: id,
  });
  await writing.seal(outworkSubject(id));
  return bill;
};

/** Marks a bill, a delivery or outwork as paid, or a merchant's credit as settled. @throws NotFound, Conflict when it is paid already or was reversed */
export const markPaid = (
  unit: UnitOfWork,
  visit: Visit,
  { about, paidOn, how }: { readonly about: string; readonly paidOn: CalendarDate; readonly how: string },
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const { to, amount } = await payable(writing, about);
    const [kind, id = ''] = about.split('/');
    let paid = about;
    if (kind === 'outwork') paid = billSubject((await payOutwork(writing, id, paidOn)).id);
    else if (kind === 'money-out') await mustBeOwed(writing, id);
    else if (kind === 'sent-back') await mustStand(writing, id);
    await paidOutBook.pay(writing, paid, paidOn, how);
    const { locale } = (await studioBook.the(writing)).identity;
    const much = moneyInWords(amount, locale);
    writing.says(
      kind === 'sent-back' ? `Settled ${to}’s credit of ${much}` : `Paid ${to} ${much}`,
      kind === 'outwork' ? about : paid,
    );
    return paid;
  });

const mustBeOwed = async (writing: Writing, id: string): Promise<void> => {
  const bill = await moneyOutBook.one(writing, id);
  if (bill.of || (await moneyOutBook.reversalsOf(writing, [id])).size > 0)
    throw new Conflict('This bill was reversed, so nothing is owed for it.', 'reversed');
};

const mustStand = async (writing: Writing, entryId: string): Promise<void> => {
  const { amount, isReversed } = await supplierCredits.one(writing, entryId);
  if (isReversed)
    throw new Conflict('Sending this back was reversed, so there is no credit for it.', 'reversed');
  if (amount.isZero()) throw new Conflict('There is no credit for this: it cost nothing.', 'nothing-owed');
};

/** Takes the mark of payment back: it is owed again. @throws Conflict when it is not paid */
export const markUnpaid = (unit: UnitOfWork, visit: Visit, about: string): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const { to, amount } = await payable(writing, about);
    await paidOutBook.takeBack(writing, about);
    const { locale } = (await studioBook.the(writing)).identity;
    const much = moneyInWords(amount, locale);
    writing.says(
      about.startsWith('sent-back/')
        ? `${to}’s credit of ${much} was not settled after all`
        : `${to} was not paid the ${much} after all`,
      about,
    );
  });
