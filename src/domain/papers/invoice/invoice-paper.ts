import { Invalid, Trouble } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import { type Finding, mustMend, wantsLook } from '../finding.js';
import { checkPaper } from '../gate/check-paper.js';
import type { Stages } from '../gate/own-rules.js';
import { type DraftLine, makePaper, type PaperDraft } from '../model/make-paper.js';
import type { Paper, PaperHead } from '../model/paper.js';
import { amountIssued } from '../settlement/balance.js';
import {
  DEDUCTION_WORDS,
  type Deduction,
  type DeductionWords,
  type DepositTaking,
  deductionsOf,
} from '../settlement/deductions.js';
import { finalInvoice, netDraft, withDeductions } from '../settlement/stages.js';
import { groupName } from '../tax/tax-groups.js';
import { creditPaper } from './credit-paper.js';
import { type EarlierPaper, standing, theirDeposit } from './earlier-paper.js';
import type { InvoiceChoices, InvoiceLine } from './invoice-choices.js';

/** What a draft's paper rests on besides what was chosen. */
export type InvoiceGround = {
  /** Number, dates, parties and how to pay; kind, due and the other chosen terms are set here. */
  readonly head: Omit<PaperHead, 'kind' | 'BT-5'>;
  /** Every invoice issued for the commission, oldest first, with its credit notes. */
  readonly earlier: readonly EarlierPaper[];
  /** The invoice a credit note mends. */
  readonly credited?: EarlierPaper;
  readonly taking?: DepositTaking;
  readonly words?: DeductionWords;
};

/**
 * Where a minor unit went: a price promised with tax that no whole net reaches, brought there by a rounding amount or not;
 * or taxes that were rounded once per paper.
 */
export type MovedUnit =
  | { readonly kind: 'unreached'; readonly promised: Money; readonly rounding: Money }
  | { readonly kind: 'drift'; readonly drift: Money };

/** A draft worked out: the paper, what it takes off, what the page must say, and what stands in its way. */
export type InvoiceInHand = {
  readonly paper: Paper;
  readonly deductions: readonly Deduction[];
  /** Earlier papers it takes off or mends, by id. */
  readonly cites: readonly string[];
  /** Where a minor unit went: said on the paper, in its language. */
  readonly moved: readonly MovedUnit[];
  readonly findings: readonly Finding[];
};

const draftLine = ({ ref: _r, garment: _g, description, ...line }: InvoiceLine): DraftLine => ({
  ...line,
  ...(description ? { description } : {}),
});

const headOf = (choices: InvoiceChoices, { head }: InvoiceGround): PaperHead => {
  const { due, supplied, orderNumber, terms, note } = choices;
  return {
    ...head,
    kind: choices.kind,
    'BT-5': choices.currency,
    ...(due ? { 'BT-9': due } : {}),
    ...(supplied ? { 'BT-72': supplied } : {}),
    ...(orderNumber ? { 'BT-13': orderNumber } : {}),
    ...(terms ? { 'BT-20': terms } : {}),
    ...(note ? { 'BT-22': note } : {}),
  };
};

const draftOf = (choices: InvoiceChoices, ground: InvoiceGround): PaperDraft => {
  const { discount, discountReason, prepaid } = choices;
  return {
    head: headOf(choices, ground),
    lines: choices.lines.map(draftLine),
    ...(discount.isZero() ? {} : { spreadDiscount: { amount: discount, reason: discountReason } }),
    ...(prepaid.isZero() ? {} : { prepaid }),
    pricesInclude: choices.pricesInclude,
    grossPolicy: 'rounding',
    taxReasons: choices.taxReasons,
  };
};

const unreachedOf = (paper: Paper): MovedUnit[] =>
  paper.unreached
    ? [
        {
          kind: 'unreached',
          promised: paper['BG-22']['BT-112'].plus(paper.unreached),
          rounding: paper['BG-22']['BT-114'],
        },
      ]
    : [];

type Worked = Omit<InvoiceInHand, 'findings'> & { readonly stages?: Stages };

const workOut = (choices: InvoiceChoices, ground: InvoiceGround): Worked => {
  const { earlier, credited, words = DEDUCTION_WORDS } = ground;
  if (choices.kind === 'credit-note') {
    if (!credited) throw new Invalid('A credit note mends an issued invoice.');
    const paper = creditPaper(choices, headOf(choices, ground), credited);
    return { paper, deductions: [], cites: [credited.id], moved: [] };
  }
  const draft = draftOf(choices, ground);
  const promised = choices.pricesInclude === 'tax' ? unreachedOf(makePaper(draft)) : [];
  const net = netDraft(draft);
  if (choices.deducts === 'all-earlier') {
    const { papers } = standing(earlier);
    const all = papers.flatMap(({ paper, credits }) => [paper, ...credits]);
    const { paper, stages, drift } = finalInvoice(net, all, words);
    return {
      paper: { ...paper, kind: choices.kind },
      stages,
      deductions: all.flatMap(deductionsOf),
      cites: papers.map(({ id }) => id),
      moved: [...promised, ...(drift.isZero() ? [] : [{ kind: 'drift' as const, drift }])],
    };
  }
  if (choices.deducts === 'nothing')
    return { paper: makePaper(draft), deductions: [], cites: [], moved: promised };
  const groups = makePaper(net)['BG-23'].map((group) => ({
    name: groupName({ category: group['BT-118'], rate: group['BT-119'] }),
    net: group['BT-116'],
  }));
  const garments = choices.lines.map(({ garment }) => garment).filter((ref) => ref !== '');
  const deductions = theirDeposit(earlier, garments, groups, ground.taking);
  const numbers = new Set(deductions.map(({ number }) => number));
  return {
    paper: makePaper(withDeductions(net, deductions, words)),
    deductions,
    cites: earlier.filter(({ paper }) => numbers.has(paper['BT-1'] ?? '')).map(({ id }) => id),
    moved: promised,
  };
};

/** Fields of the gate and of the arithmetic as the draft names them. */
const fieldOf = (field: string): string =>
  field
    .replace('spreadDiscount', 'discount')
    .replace(/^lines\.(\d+)\.(quantity|price|rate|category|name|unit)$/, 'lines.$1.$2');

/** As many as an amount that is typed; with one paper beyond, what everybody owes could no longer be added up exactly. */
const MOST_FIGURES = 12;

/** What the draft itself shows that no rule of the standard asks: work invoiced twice, prices forgotten. */
const ownFindings = (choices: InvoiceChoices, ground: InvoiceGround, paper: Paper): Finding[] => {
  const found: Finding[] = [];
  const { invoiced, extras } = standing(ground.earlier);
  if (choices.kind === 'part-invoice') {
    const twice = choices.lines.find(
      ({ ref, garment }) => invoiced.has(garment) || (ref.startsWith('extra-') && extras.has(ref)),
    );
    if (twice)
      found.push(
        mustMend('invoiced-before', 'lines', `${twice.name} stands on an invoice that was issued already.`),
      );
  }
  if (choices.kind === 'invoice' && standing(ground.earlier).papers.length > 0)
    found.push(
      mustMend(
        'earlier-not-deducted',
        'deducts',
        'Invoices were issued for this commission meanwhile, and they do not come off here. Let them come off, or tax is stated twice.',
      ),
    );
  if (choices.deducts === 'all-earlier') found.push(...askedAgain(ground));
  const whole = paper['BG-22']['BT-112'];
  if (choices.kind !== 'credit-note' && whole.toDecimal().abs().truncated().toFixed().length > MOST_FIGURES)
    found.push(
      mustMend(
        'too-large',
        'totals',
        `The invoice comes to ${whole.currency} ${whole}, which is too large: at most ${MOST_FIGURES} figures before the decimals. No payment of it could be put down.`,
      ),
    );
  if (choices.kind !== 'credit-note' && choices.lines.length > 0 && paper['BG-22']['BT-112'].isZero())
    found.push(wantsLook('nothing-asked', 'lines', 'The invoice comes to nothing. Is that right?'));
  return found;
};

/**
 * What a credit note gave back of an invoice that still counts no longer comes off, so the draft asks for it again: right
 * where the line stood there in error, wrong where it was given for good. Only the maker knows which. An invoice given back
 * whole counts as never issued, and asks nothing.
 */
const askedAgain = ({ earlier }: InvoiceGround): Finding[] => {
  const back = standing(earlier).papers.flatMap(({ paper, credits }) =>
    credits.map((credit) => {
      const amount = amountIssued(credit);
      return `Credit note ${credit['BT-1'] ?? ''} gave back ${amount.currency} ${amount} of ${paper['BT-1'] ?? ''}.`;
    }),
  );
  if (back.length === 0) return [];
  const again =
    'What was agreed still counts whole, so this invoice asks for it again. Where it was given for good, take the line out or put the amount into the discount.';
  return [wantsLook('credited-asked-again', 'discount', `${back.join(' ')} ${again} Is that right?`)];
};

/**
 * Works a draft out and puts it through the gate.
 *
 * What cannot be meant (a discount larger than the price, a share outside its bounds, an amount beyond what can be kept
 * exactly) is left out and becomes a finding that blocks, so that the draft's page still opens.
 *
 * @param ground what it rests on; without a number, which comes at issue
 * @returns the paper in whole minor units, and every finding by rule id
 * @see test/domain/papers/invoice/drafting.test.ts; test/properties/invoices.test.ts
 */
export const invoiceInHand = (choices: InvoiceChoices, ground: InvoiceGround): InvoiceInHand => {
  try {
    const { stages, ...worked } = workOut(choices, ground);
    return {
      ...worked,
      findings: [
        ...checkPaper(worked.paper, { numberComes: true, ...(stages ? { stages } : {}) }).map((finding) => ({
          ...finding,
          field: fieldOf(finding.field),
        })),
        ...ownFindings(choices, ground, worked.paper),
      ],
    };
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    const without = withoutCause(choices, error);
    if (!without) throw error;
    const field = fieldOf(error.fields[0]?.field ?? 'lines');
    const rest = invoiceInHand(without, ground);
    // What was left out leaves gaps of its own, which are mended with it.
    const others = rest.findings.filter(({ code }) => !['BR-16', 'BR-CO-18', 'nothing-asked'].includes(code));
    return { ...rest, findings: [mustMend(`not-meant-${field}`, field, error.message), ...others] };
  }
};

/** The same draft without what cannot stand; nothing when there is nothing to leave out. */
const withoutCause = (choices: InvoiceChoices, { fields }: Trouble): InvoiceChoices | undefined => {
  const zero = Money.zero(choices.currency);
  const field = fields[0]?.field ?? '';
  if (field.startsWith('credit') && (choices.credits !== 'lines' || choices.creditLines.length > 0))
    return { ...choices, credits: 'lines', creditLines: [], creditAmount: undefined };
  if (!choices.discount.isZero()) return { ...choices, discount: zero };
  const [, line] = /^lines\.(\d+)/.exec(field) ?? [];
  if (line !== undefined)
    return { ...choices, lines: choices.lines.filter((_, place) => place !== Number(line)) };
  return choices.lines.length > 0 ? { ...choices, lines: [] } : undefined;
};
