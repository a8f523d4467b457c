import { Decimal } from '../kernel/decimal.js';
import { asked, nothingTyped, type Reading, refused, understood } from '../measuring/reading.js';
import { foldTyped, quoted } from '../measuring/typed-text.js';
import type { KnownOperation } from './known-operation.js';
import { DRIVER_WORDS, type Driver } from './mode.js';

/** What a typed spec line means: a known operation, and how many of it where that was said. */
export type SpecLine = { readonly known: KnownOperation; readonly quantity?: Decimal };

/** The typed line names nothing known: a new operation, whose minutes must be asked. */
export type NewSpecLine = {
  readonly kind: 'new';
  readonly name: string;
  readonly quantity?: Decimal;
  readonly driver: Driver;
  readonly sentence: string;
};

type Counted = { readonly name: string; readonly quantity?: Decimal; readonly driver?: Driver };

const LONGEST_TEXT = 200;
const MOST_CANDIDATES = 8;
const COUNT = '(\\d{1,6}(?:[.,]\\d{1,3})?)';
const UNIT = '(cm2|cm²|sq cm|cm|metres?|m|each|pieces?|pcs?)?';
const TRAILING = new RegExp(`^(.*?[^\\d\\s.,;:x×-])[\\s,;:]*(?:[x×] ?)?(?<![-.\\d])${COUNT} ?${UNIT}$`);
const LEADING = new RegExp(`^${COUNT} ?${UNIT} ?(?:[x×] ?)?(?: of )?(?=\\p{L})(.*)$`, 'u');
const EMPTY_WORDS = new Set(['the', 'a', 'an', 'of', 'and', 'or', 'by', 'in', 'for', 'to']);

const driverOf = (unit: string | undefined): Driver | undefined => {
  if (unit === undefined || unit === '') return undefined;
  if (unit === 'cm') return 'cm';
  if (unit === 'cm2' || unit === 'cm²' || unit === 'sq cm') return 'cm2';
  return unit.startsWith('m') ? 'm' : 'each';
};

const counted = (text: string): Counted => {
  const trailing = TRAILING.exec(text);
  const leading = trailing ? null : LEADING.exec(text);
  const [name, count, unit] = trailing
    ? [trailing[1], trailing[2], trailing[3]]
    : [leading?.[3], leading?.[1], leading?.[2]];
  if (name === undefined || count === undefined) return { name: text };
  const driver = driverOf(unit);
  return { name: name.trim(), quantity: new Decimal(count.replace(',', '.')), ...(driver && { driver }) };
};

const singular = (word: string): string =>
  word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word;

const wordsOf = (text: string): readonly string[] =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !EMPTY_WORDS.has(word))
    .map(singular);

const isSame = (a: readonly string[], b: readonly string[]): boolean => a.join(' ') === b.join(' ');

const distinct = (lines: readonly KnownOperation[]): readonly KnownOperation[] =>
  lines.filter((one, place) => lines.findIndex((other) => other.name === one.name) === place);

const matches = (name: string, known: readonly KnownOperation[]): readonly KnownOperation[] => {
  const typed = wordsOf(name);
  if (typed.length === 0) return [];
  const lines = distinct(known).map((one) => ({ one, words: wordsOf(one.name) }));
  const tests: readonly ((words: readonly string[], one: KnownOperation) => boolean)[] = [
    (words) => isSame(words, typed),
    (_, one) => isSame(wordsOf(one.kind), typed),
    (words) => typed.every((word) => words.includes(word)),
    (words) => typed.every((word) => words.some((other) => other.startsWith(word))),
  ];
  for (const test of tests) {
    const found = lines.filter(({ one, words }) => test(words, one));
    if (found.length > 0) return found.map(({ one }) => one);
  }
  return [];
};

/** Two hip pockets are one pair, unless pairs were said. */
const inPairs = (known: KnownOperation, { name, quantity }: Counted): Decimal | undefined =>
  /\(pair\)/.test(known.name) && !wordsOf(name).includes('pair') ? quantity?.div(2) : quantity;

const inItsUnit = (known: KnownOperation, said: Counted): Decimal | string | undefined => {
  const { driver } = said;
  const quantity = inPairs(known, said);
  if (quantity === undefined || driver === undefined || driver === known.driver) return quantity;
  if (driver === 'each' && known.driver === 'once') return quantity;
  if (driver === 'm' && known.driver === 'cm') return quantity.times(100);
  if (driver === 'cm' && known.driver === 'm') return quantity.div(100);
  const goesBy = known.driver === 'once' ? 'each' : DRIVER_WORDS[known.driver];
  return `${quoted(known.name)} goes by ${goesBy}, not by ${DRIVER_WORDS[driver]}. Write how many.`;
};

/**
 * Reads a line added by typing: `inside pocket 2`, `2 inside pockets`, `embroidery 40 cm2`, `press`.
 *
 * Words are compared without capitals, accents, plural s and small words; first the operations of the garment's type, then
 * the studio's others, without its price lists. Where an operation counts pairs, two typed are one pair. The whole name or kind wins over all words, all words over beginnings of words.
 *
 * @param typed the text as typed, at most 200 letters
 * @param ofType the known operations of this garment's type
 * @param others the studio's own and those of other types, tried only when the type knows none
 * @returns `ok` with the operation and the quantity if one was said; `ask` with up to eight candidates, each of which can
 *   be typed instead; `new` when nothing known is named; `refuse` or `empty`
 * @see test/domain/making/spec-line.test.ts
 */
export const readSpecLine = (
  typed: string,
  ofType: readonly KnownOperation[],
  others: readonly KnownOperation[] = [],
): Reading<SpecLine> | NewSpecLine => {
  const folded = foldTyped(typed);
  if (folded === '') return nothingTyped;
  if ([...folded].length > LONGEST_TEXT) return refused(`Keep a line under ${LONGEST_TEXT} letters.`);
  const pools = [ofType, others.filter((one) => !one.isMenu)];
  const whole = { name: folded };
  const named = pools.some((pool) => pool.some((one) => isSame(wordsOf(one.name), wordsOf(folded))));
  const said: Counted = named ? whole : counted(folded);
  if (said.quantity?.isZero())
    return refused('Nought of it is nothing to add. Write how many, or leave the number out.');
  if (wordsOf(said.name).every((word) => /^\d+$/.test(word)))
    return refused('What is to be done? Write it in words, such as “inside pocket 2”.');
  const found = pools.map((pool) => matches(said.name, pool)).find((lines) => lines.length > 0) ?? [];
  const [only] = found;
  if (only === undefined) return newLine(typed, said);
  if (found.length > 1) return askWhich(found, said);
  const quantity = inItsUnit(only, said);
  if (typeof quantity === 'string') return refused(quantity);
  return understood({ known: only, ...(quantity && { quantity }) });
};

const askWhich = (found: readonly KnownOperation[], said: Counted): Reading<SpecLine> => {
  const choices = found.slice(0, MOST_CANDIDATES).map((known) => {
    const count = inPairs(known, said);
    return { words: known.name, typed: count ? `${known.name} × ${count.toFixed()}` : known.name };
  });
  return asked(`Which one is ${quoted(said.name)}?`, choices);
};

const newLine = (typed: string, said: Counted): NewSpecLine => {
  const driver = said.driver ?? (said.quantity ? 'each' : 'once');
  const start = typed.toLowerCase().indexOf(said.name);
  const name = start < 0 ? said.name : typed.slice(start, start + said.name.length).trim();
  const per =
    driver === 'once' ? '' : driver === 'each' ? ' each' : ` for each ${driver === 'cm2' ? 'cm²' : driver}`;
  const sentence = `${quoted(name)} is new here. How many minutes does it take${per}?`;
  return { kind: 'new', name, driver, sentence, ...(said.quantity && { quantity: said.quantity }) };
};
