import { foldForSearch } from '../../clients/client.js';
import { Money } from '../../kernel/money.js';
import { creditorReference } from '../payment/creditor-reference.js';
import type { BankLine } from './bank-line.js';

/** A paper that a line may be paying. */
export type MatchPaper = {
  readonly id: string;
  readonly number: string;
  readonly clientId: string;
  /** What is still to pay on it; nought when it is settled. */
  readonly open: Money;
};

export type MatchClient = { readonly id: string; readonly name: string };

/** How sure a proposal is. It is never more than a proposal. */
export const SURENESS = {
  sure: 'Sure',
  nearly: 'Nearly sure',
  likely: 'Likely',
  perhaps: 'Perhaps',
} as const;
export type Sureness = keyof typeof SURENESS;
const ORDER = Object.keys(SURENESS) as Sureness[];

/** What a line may be. */
export type Match = {
  readonly clientId: string;
  /** Papers to settle first, in this order; none: those due first. */
  readonly papers: readonly string[];
  readonly sureness: Sureness;
  /** Why, one sentence each. */
  readonly why: readonly string[];
};

/** Papers and clients made ready to be looked through by many lines. */
export type MatchIndex = {
  readonly byMark: ReadonlyMap<string, { readonly paper: MatchPaper; readonly mark: 'reference' | 'number' }>;
  readonly byAmount: ReadonlyMap<number, readonly MatchPaper[]>;
  readonly byDebt: ReadonlyMap<number, readonly string[]>;
  readonly byWord: ReadonlyMap<string, readonly string[]>;
  /** Of how many different words each client's name is made. */
  readonly wordsOf: ReadonlyMap<string, number>;
  readonly openOf: ReadonlyMap<string, readonly MatchPaper[]>;
  readonly names: ReadonlyMap<string, string>;
};

const push = <K, V>(map: Map<K, V[]>, key: K, value: V): void => {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
};

const nameWords = (name: string): string[] =>
  foldForSearch(name)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word.length > 1);

/** A number shorter than this stands in too many texts by chance. */
const LEAST_MARK = 4;

const compact = (text: string): string => text.toUpperCase().replace(/[^A-Z0-9]/g, '');

const referenceOf = (number: string): string => {
  try {
    return creditorReference(number);
  } catch {
    // A number of more than 21 signs has no creditor reference.
    return '';
  }
};

/** Makes papers and clients ready. @param papers settled ones too: a line may name one that was paid before */
export const matchIndex = (papers: readonly MatchPaper[], clients: readonly MatchClient[]): MatchIndex => {
  const byMark = new Map<string, { paper: MatchPaper; mark: 'reference' | 'number' }>();
  const byAmount = new Map<number, MatchPaper[]>();
  const openOf = new Map<string, MatchPaper[]>();
  for (const paper of papers) {
    const number = compact(paper.number);
    if (number.length >= LEAST_MARK) byMark.set(number, { paper, mark: 'number' });
    const reference = referenceOf(paper.number);
    if (reference) byMark.set(reference, { paper, mark: 'reference' });
    if (paper.open.minor <= 0) continue;
    push(byAmount, paper.open.minor, paper);
    push(openOf, paper.clientId, paper);
  }
  const byDebt = new Map<number, string[]>();
  for (const [clientId, open] of openOf)
    if (open.length > 1)
      push(
        byDebt,
        open.reduce((sum, paper) => sum + paper.open.minor, 0),
        clientId,
      );
  const byWord = new Map<string, string[]>();
  const wordsOf = new Map<string, number>();
  for (const { id, name } of clients) {
    const words = new Set(nameWords(name));
    wordsOf.set(id, words.size);
    for (const word of words) push(byWord, word, id);
  }
  return {
    byMark,
    byAmount,
    byDebt,
    byWord,
    wordsOf,
    openOf,
    names: new Map(clients.map(({ id, name }) => [id, name])),
  };
};

/** At most so many runs of letters or digits make one number, as `RF 18 5390 0754 7034` is made of five. */
const MOST_RUNS = 10;
const MOST_TOKENS = 400;

/** The papers whose creditor reference or number stands in a text, however it is spaced. */
const marksIn = (
  text: string,
  { byMark }: MatchIndex,
): { paper: MatchPaper; mark: 'reference' | 'number' }[] => {
  const tokens = (text.toUpperCase().match(/[A-Z]+|\d+/g) ?? []).slice(0, MOST_TOKENS);
  const found = new Map<string, { paper: MatchPaper; mark: 'reference' | 'number' }>();
  for (let from = 0; from < tokens.length; from += 1) {
    let run = '';
    for (let to = from; to < Math.min(tokens.length, from + MOST_RUNS); to += 1) {
      run += tokens[to];
      if (run.length > 40) break;
      const hit = byMark.get(run);
      if (hit && (hit.mark === 'reference' || !found.has(hit.paper.id))) found.set(hit.paper.id, hit);
    }
  }
  return [...found.values()];
};

/** Clients whose whole name stands among the payer's words. */
const payersIn = (line: BankLine, { byWord, wordsOf }: MatchIndex): Set<string> => {
  const said = new Set(nameWords(line.payer === '' ? line.words : line.payer));
  const met = new Map<string, number>();
  for (const word of said)
    for (const client of byWord.get(word) ?? []) met.set(client, (met.get(client) ?? 0) + 1);
  const whole = [...met].filter(([id, count]) => count > 1 && count >= (wordsOf.get(id) ?? 0));
  return new Set(whole.map(([id]) => id));
};

const AT_MOST = 5;

/**
 * What a line of a statement may be paying: by the creditor reference or the paper's number in its words, by its exact
 * amount, by the payer's name. It books nothing.
 *
 * @param line money that came in
 * @returns surest first, at most five; none for money that went out
 * @see ISO 11649 (creditor reference); test/domain/papers/bank/proposals.test.ts
 */
export const proposeMatches = (line: BankLine, index: MatchIndex): Match[] => {
  if (line.amount.minor <= 0) return [];
  const payers = payersIn(line, index);
  const byClient = new Map<string, Match>();
  const add = (match: Match): void => {
    const before = byClient.get(match.clientId);
    if (!before || ORDER.indexOf(match.sureness) < ORDER.indexOf(before.sureness))
      byClient.set(match.clientId, match);
  };
  addMarked(line, index, add);
  const named = (clientId: string): boolean => payers.has(clientId);
  const alike = index.byAmount.get(line.amount.minor) ?? [];
  for (const paper of alike.slice(0, 50)) {
    const amount = `The amount is just what is open on ${paper.number}.`;
    if (named(paper.clientId))
      add({
        clientId: paper.clientId,
        papers: [paper.id],
        sureness: 'likely',
        why: [amount, 'The payer has the client’s name.'],
      });
    else
      add({
        clientId: paper.clientId,
        papers: [paper.id],
        sureness: 'perhaps',
        why: [alike.length > 1 ? `${amount} ${alike.length} papers are open for as much.` : amount],
      });
  }
  for (const clientId of (index.byDebt.get(line.amount.minor) ?? []).slice(0, 50))
    add({
      clientId,
      papers: (index.openOf.get(clientId) ?? []).map(({ id }) => id),
      sureness: named(clientId) ? 'likely' : 'perhaps',
      why: [
        `The amount is just what ${index.names.get(clientId) ?? 'this client'} owes on all papers together.`,
        ...(named(clientId) ? ['The payer has the client’s name.'] : []),
      ],
    });
  for (const id of [...payers].slice(0, AT_MOST))
    add({ clientId: id, papers: [], sureness: 'perhaps', why: ['The payer has the client’s name.'] });
  return [...byClient.values()]
    .sort((a, b) => ORDER.indexOf(a.sureness) - ORDER.indexOf(b.sureness))
    .slice(0, AT_MOST);
};

const addMarked = (line: BankLine, index: MatchIndex, add: (match: Match) => void): void => {
  const marked = new Map<string, { paper: MatchPaper; mark: 'reference' | 'number' }[]>();
  for (const hit of marksIn(line.words, index)) push(marked, hit.paper.clientId, hit);
  for (const [clientId, hits] of marked) {
    const open = Money.sum(
      hits.map(({ paper }) => paper.open),
      line.amount.currency,
    );
    const exact = open.equals(line.amount);
    const why = hits.map(({ paper, mark }) =>
      mark === 'reference'
        ? `The creditor reference of ${paper.number} stands in the words.`
        : `The number ${paper.number} stands in the words.`,
    );
    add({
      clientId,
      papers: hits.filter(({ paper }) => paper.open.minor > 0).map(({ paper }) => paper.id),
      sureness: exact ? 'sure' : 'nearly',
      why: [...why, amountSaid(line.amount, open)],
    });
  }
};

const amountSaid = (amount: Money, open: Money): string => {
  if (open.equals(amount)) return 'The amount is just what is open.';
  if (open.minor <= 0) return 'Nothing is open on it any more: the money would be held for the client.';
  return amount.compare(open) < 0
    ? `It is less than the ${open} that is open.`
    : `It is more than the ${open} that is open: the rest would be held for the client.`;
};
