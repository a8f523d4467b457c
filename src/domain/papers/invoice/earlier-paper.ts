import { Money } from '../../kernel/money.js';
import type { Paper } from '../model/paper.js';
import { amountIssued } from '../settlement/balance.js';
import type { Deduction, DepositTaking } from '../settlement/deductions.js';
import { groupName } from '../tax/tax-groups.js';
import type { InvoiceLine } from './invoice-choices.js';

/** An invoice that was issued for the commission before, with the credit notes on it. */
export type EarlierPaper = {
  readonly id: string;
  readonly paper: Paper;
  /** The lines it was made of: line n of the paper comes from the nth. */
  readonly lines: readonly Pick<InvoiceLine, 'ref' | 'garment'>[];
  /** What it took off itself, by earlier invoice, category and rate. */
  readonly deductions: readonly Deduction[];
  readonly credits: readonly Paper[];
};

/**
 * What is left of an issued invoice after the credit notes on it: BT-112 + BT-114, less the same of each.
 *
 * @returns nought when it was credited whole
 */
export const leftOf = ({ paper, credits }: Pick<EarlierPaper, 'paper' | 'credits'>): Money =>
  credits.reduce((left, credit) => left.minus(amountIssued(credit)), amountIssued(paper));

/** Was it given back whole? Then it no longer counts: its garments can be invoiced again, nothing of it comes off. */
export const isUndone = (earlier: EarlierPaper): boolean =>
  earlier.credits.length > 0 &&
  leftOf(earlier).isZero() &&
  netsLeft(earlier).every(({ net }) => net.isZero());

/** What of an invoice is still asked for before tax, by category and rate: its groups less those of its credit notes. */
export const netsLeft = ({ paper, credits }: Pick<EarlierPaper, 'paper' | 'credits'>): Deduction[] =>
  paper['BG-23'].map((group) => {
    const name = nameOf(group);
    const back = credits.flatMap((credit) =>
      credit['BG-23'].filter((each) => nameOf(each) === name).map((each) => each['BT-116']),
    );
    return {
      number: paper['BT-1'] ?? '',
      issued: paper['BT-2'],
      category: group['BT-118'],
      rate: group['BT-119'],
      net: back.reduce((left, amount) => left.minus(amount), group['BT-116']),
    };
  });

/** The earlier invoices that still count, and the garments and extras they ask for. */
export const standing = (
  earlier: readonly EarlierPaper[],
): {
  readonly papers: readonly EarlierPaper[];
  /** Garments asked for on a part invoice. */
  readonly invoiced: ReadonlySet<string>;
  /** Extras asked for, by ref. */
  readonly extras: ReadonlySet<string>;
} => {
  const papers = earlier.filter((one) => !isUndone(one));
  const asked = papers.filter(({ paper }) => paper.kind !== 'deposit-invoice').flatMap(({ lines }) => lines);
  return {
    papers,
    invoiced: new Set(asked.map(({ garment }) => garment).filter((ref) => ref !== '')),
    extras: new Set(asked.map(({ ref }) => ref).filter((ref) => ref.startsWith('extra-'))),
  };
};

const nameOf = (group: Paper['BG-23'][number]): string =>
  groupName({ category: group['BT-118'], rate: group['BT-119'] });

const isSame = (a: Deduction, b: Deduction): boolean =>
  a.number === b.number && groupName(a) === groupName(b);

/**
 * What garments take off of the deposits that were invoiced for them: on each deposit invoice the nets of the lines of those
 * garments, so that the shares of all garments add up to the deposit; never more than is left of it after credit notes and
 * earlier part invoices, nor more than the garments themselves come to.
 *
 * Taken first, the deposit goes whole onto the garments that leave first; held to the last, none of it comes off before the
 * final invoice.
 *
 * @param garments keys of the garments on the part invoice
 * @param nets what they come to before tax, by category and rate; nothing is taken beyond
 * @returns one deduction per deposit invoice, category and rate, none of them nought
 * @see test/domain/papers/invoice/drafting.test.ts
 */
export const theirDeposit = (
  earlier: readonly EarlierPaper[],
  garments: readonly string[],
  nets: readonly { readonly name: string; readonly net: Money }[],
  how: DepositTaking = 'shared',
): Deduction[] => {
  if (how === 'last') return [];
  const { papers } = standing(earlier);
  const room = new Map(nets.map(({ name, net }) => [name, net]));
  const found: Deduction[] = [];
  for (const deposit of papers.filter(({ paper }) => paper.kind === 'deposit-invoice')) {
    for (const left of netsLeft(deposit)) {
      const name = groupName(left);
      const zero = Money.zero(left.net.currency);
      const theirs = deposit.paper['BG-25']
        .filter((_, place) => garments.includes(deposit.lines[place]?.garment ?? ''))
        .filter((line) => groupName({ category: line['BT-151'], rate: line['BT-152'] }) === name)
        .reduce((sum, line) => sum.plus(line['BT-131']), zero);
      const gone = papers
        .flatMap(({ deductions }) => deductions)
        .filter((one) => isSame(one, left))
        .reduce((sum, one) => sum.plus(one.net), zero);
      const net = [how === 'first' ? left.net : theirs, left.net.minus(gone), room.get(name) ?? zero].reduce(
        (least, one) => (one.compare(least) < 0 ? one : least),
      );
      if (net.minor <= 0) continue;
      room.set(name, (room.get(name) ?? zero).minus(net));
      found.push({ ...left, net });
    }
  }
  return found;
};
