import { type FieldTrouble, Invalid, Trouble } from '../../../../domain/kernel/errors.js';
import type { Part } from '../../../../domain/papers/settlement/allocating.js';
import { clientBook } from '../../../../storage/books/client-book.js';
import { bankBook } from '../../../../storage/books/payments/bank-book.js';
import type { Reading, Visit, Writing } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { takeWithin } from '../take-payment.js';
import type { LineChoice } from './bank.form.js';

/** What was done with the lines of a page. */
export type DoneWithLines = { readonly taken: number; readonly aside: number };

const clientOf = async (
  reading: Reading,
  choice: Exclude<LineChoice, { does: 'aside' }>,
): Promise<string> => {
  if (choice.does === 'take') return (await clientBook.one(reading, choice.clientId)).id;
  const asked = choice.code.toLowerCase();
  const client = (await clientBook.everybody(reading)).find(({ code }) => code.toLowerCase() === asked);
  if (!client)
    throw Invalid.field('who', `There is no client with the number “${choice.code.slice(0, 40)}”.`);
  return client.id;
};

/**
 * Makes a payment of one line, within another act.
 *
 * @param parts what goes to which paper; undefined: the named papers, then those due first
 * @throws Conflict when a payment was made of it already; Invalid for money that went out
 */
export const takeLine = async (
  writing: Writing,
  lineId: string,
  choice: Exclude<LineChoice, { does: 'aside' }>,
  parts?: readonly Part[],
): Promise<string> => {
  const line = await bankBook.mustBeOpen(writing, lineId);
  if (line.amount.minor <= 0)
    throw Invalid.field('line', 'This money went out: it is no payment of a client.');
  const clientId = await clientOf(writing, choice);
  const id = await takeWithin(
    writing,
    {
      clientId,
      on: line.on,
      amount: line.amount,
      how: 'bank transfer',
      note: [line.payer, line.words].filter(Boolean).join(': ').slice(0, 400),
    },
    parts,
    choice.does === 'take' ? choice.papers : [],
  );
  await bankBook.markTaken(writing, line, id);
  return id;
};

/**
 * Does what was chosen for the lines of a page, all of it or nothing.
 *
 * @throws Invalid naming each line at fault as `line.KEY` or `who.KEY`
 */
export const takeLines = (
  unit: UnitOfWork,
  visit: Visit,
  choices: readonly { readonly lineId: string; readonly choice: LineChoice }[],
): Promise<Done<DoneWithLines>> =>
  unit.write(visit, async (writing) => {
    const troubles: FieldTrouble[] = [];
    let [taken, aside] = [0, 0];
    for (const { lineId, choice } of choices) {
      try {
        if (choice.does === 'aside') {
          await bankBook.setAside(writing, await bankBook.mustBeOpen(writing, lineId), true);
          aside += 1;
        } else {
          await takeLine(writing, lineId, choice);
          taken += 1;
        }
      } catch (error) {
        if (!(error instanceof Trouble)) throw error;
        const field = choice.does === 'take-by-code' ? `who.${lineId}` : `line.${lineId}`;
        troubles.push({ field, text: error.message });
      }
    }
    const [first] = troubles;
    if (first)
      throw new Invalid(troubles.length === 1 ? first.text : 'Some lines need another look.', troubles);
    if (taken + aside === 0) throw new Invalid('Nothing was chosen, so nothing was done.');
    writing.says(
      [
        taken > 0 && `Took ${taken} ${taken === 1 ? 'payment' : 'payments'} from a bank statement`,
        aside > 0 && `set ${aside} ${aside === 1 ? 'line' : 'lines'} of a bank statement aside`,
      ]
        .filter((part) => part !== false)
        .join(', ')
        .replace(/^s/, 'S'),
      'payments',
    );
    return { taken, aside };
  });

/** Sets one line aside, or takes it up again. */
export const setLineAside = (
  unit: UnitOfWork,
  visit: Visit,
  lineId: string,
  aside: boolean,
): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    await bankBook.setAside(writing, await bankBook.mustBeOpen(writing, lineId), aside);
    writing.says(
      aside ? 'Set a line of a bank statement aside' : 'Took a line of a bank statement up again',
      'payments',
    );
  });
