import { expect } from 'vitest';
import { readPdf } from '../printing/papers/read-pdf.js';
import type { Hand } from '../support/hand.js';

/*
 * One commission from the enquiry to the reckoning, told once, for whichever hand does it: only what stands on the pages
 * is pressed, and each page says what came of the one before.
 */

/** What goes on outside the pages: time passes, and papers are printed. */
export type World = { forward(minutes: number): void; bytes(path: string): Promise<Uint8Array> };

const moneyIn = (text: string, words: RegExp): number => {
  const found = words.exec(text)?.[1];
  if (found === undefined)
    throw new Error(`No amount stands at ${String(words)} in:\n${text.slice(0, 1500)}`);
  return Number(found.replaceAll(/[^\d.]/g, '').replace('.', ''));
};

/** A tap is delivered by script in its own time. */
const stands = (hand: Hand, words: string) =>
  expect.poll(() => hand.text(), { timeout: 20_000 }).toContain(words);

/** Somebody asks; they become a client with an address, and a commission of two garments. */
export const asks = async (hand: Hand, name: string, way: readonly string[]): Promise<string> => {
  await hand.open('/');
  await hand.follow('Clients');
  for (const words of way) await hand.follow(words);
  await hand.write('name', name);
  await hand.write('reachedAt', '01632 960 211');
  await hand.write('what', 'Waistcoat and breeches');
  await hand.press('Keep');
  await hand.press('Make them a client');
  await hand.choose('type', 'waistcoat');
  await hand.press('Begin the commission');
  expect(hand.path).toMatch(/^\/commissions\/[0-9a-f-]{36}/);
  const commission = hand.path.split('?')[0]!;
  await hand.follow('Add a garment');
  await hand.choose('type', 'breeches');
  await hand.press('Keep');
  await hand.open(commission);
  await hand.follow(name);
  await hand.follow('Correct');
  await hand.write('address', 'The Apiary\nLong Reach Lane');
  await hand.write('country', 'IE');
  await hand.press('Keep');
  expect(await hand.text()).toContain('Long Reach Lane');
  return commission;
};

/** Quoted, printed, and accepted; answers the quoted total in cents. */
export const quotesAndAccepts = async (
  hand: Hand,
  world: World,
  commission: string,
  name: string,
): Promise<number> => {
  await hand.open(commission);
  await hand.follow('Quotes');
  await hand.press('Make a quote');
  await hand.press('Keep and check');
  await hand.tickAll();
  await hand.press('Issue the quote');
  const paper = hand.path.split('?')[0]!;
  const { pages } = await readPdf(await world.bytes(`${paper}.pdf`));
  const printed = pages.join(' ');
  expect(printed).toContain(name);
  expect(printed).not.toMatch(/\bhours?\b|margin|markup|4 in 5|profit/i);
  const total = moneyIn(printed, /Total to pay, in EUR ([\d,.]+)/);
  await hand.follow('Put down the answer');
  await hand.pick('answer', 'accepted');
  await hand.write('byWhom', name);
  await hand.write('how', 'in person');
  await hand.press('Put it down');
  expect(await hand.text()).toContain('accepted');
  return total;
};

/** The clock and a line of time on the waistcoat; both stand in its entries. */
export const works = async (hand: Hand, world: World, commission: string): Promise<void> => {
  await hand.open(commission);
  await hand.follow('Waistcoat');
  await hand.follow('Its clock and time');
  await hand.press('Measure');
  await stands(hand, 'Done with it');
  world.forward(25);
  await hand.open('/bench');
  await hand.press('Done with it');
  await stands(hand, 'No clock runs');
  await hand.open(commission);
  await hand.follow('Waistcoat');
  await hand.follow('Its clock and time');
  await hand.follow('Forgotten: add time');
  await hand.write('line', '1h30 draft the pattern');
  await hand.press('Add');
  expect(await hand.text()).toContain('1 h 30');
};

/** An extra is worked out, offered at a price, and agreed; answers its price in cents. */
export const changes = async (hand: Hand, commission: string, name: string): Promise<number> => {
  await hand.open(commission);
  await hand.follow('Waistcoat');
  await hand.follow('Something other than planned');
  await hand.follow('The client asked for it');
  await hand.write('lines.0.line', 'Watch pocket');
  await hand.write('lines.0.minutes', '45');
  await hand.press('What does it come to?');
  await hand.write('price', '40');
  await hand.press('Offer it at this price');
  await hand.pick('act', 'agreed');
  await hand.write('byWhom', name);
  await hand.write('how', 'in person');
  await hand.press('Put it down');
  const text = await hand.text();
  expect(text).toMatch(/Agreed/i);
  return 4000;
};

/** The waistcoat alone is invoiced, with its extra; answers what is to be paid, in cents. */
export const invoicesAPart = async (hand: Hand, world: World, commission: string): Promise<number> => {
  await hand.open(commission);
  await hand.follow('Lay a deposit, part or final invoice ready');
  await hand.tickBeside('Waistcoat');
  await hand.press('Lay a part invoice ready');
  await hand.press('Keep and check');
  await hand.tickAll();
  await hand.press('Issue the part invoice');
  const { pages } = await readPdf(await world.bytes(`${hand.path.split('?')[0]}.pdf`));
  const printed = pages.join(' ').replaceAll(/\s+/g, ' ');
  expect(printed).toContain('Watch pocket');
  expect(printed).not.toContain('Breeches');
  return moneyIn(await hand.text(), /Still to pay\s*€([\d,.]+)/);
};

/** It is paid to the cent: nothing is left to pay on it. */
export const pays = async (hand: Hand, due: number): Promise<void> => {
  const invoice = hand.path.split('?')[0]!;
  await hand.follow('Put down a payment');
  await hand.write('amount', `${Math.floor(due / 100)}.${String(due % 100).padStart(2, '0')}`);
  await hand.write('how', 'bank transfer');
  await hand.press('Take the payment');
  await hand.open(invoice);
  expect(await hand.text()).toMatch(/Still to pay\s*nothing/);
};

/** Handed over and closed; the reckoning says in a sentence what was earned. */
export const reckons = async (hand: Hand, commission: string, name: string): Promise<string> => {
  await hand.open(commission);
  await hand.follow('Waistcoat');
  await hand.follow('Hand over');
  await hand.write('receivedBy', name);
  await hand.press('Handed over');
  await hand.open(commission);
  await hand.follow('Waistcoat');
  await hand.follow('Reckoning');
  await hand.pick('unwritten', 'as-planned');
  await hand.press('Close and freeze');
  const text = await hand.text();
  expect(text).toContain('These figures do not change again.');
  return text;
};
