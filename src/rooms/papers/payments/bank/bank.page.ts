import type { StudioIdentity } from '../../../../domain/house/studio.js';
import { BANK_COLUMNS, type BankLines, likelyColumns } from '../../../../domain/papers/bank/bank-columns.js';
import { type Match, SURENESS } from '../../../../domain/papers/bank/propose-matches.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import type { PageOf } from '../../../../storage/books/client-book.js';
import type { BankImport, KeptBankLine, LineStanding } from '../../../../storage/books/payments/bank-book.js';
import { freshForm } from '../../../../web/forms/form.js';
import type { PageWords } from '../../../../web/reply.js';
import type { TextTable } from '../../../../web/tables/table-of-text.js';
import { moneyInWords } from '../../../../web/words/amounts.js';
import { dateInWords, instantInWords } from '../../../../web/words/dates.js';
import { papersCrumb, paymentsCrumb, paymentUrl } from '../payment.page.js';
import { choiceText } from './bank.form.js';
import type { Matching } from './match-lines.js';

export const bankUrl = '/papers/payments/bank';
const bankCrumb = { text: 'Bank statements', href: bankUrl };
type Drawn = { template: string; words: PageWords };

const MOST_SHOWN = 100;
const lines = (many: number): string => `${many} ${many === 1 ? 'line' : 'lines'}`;

/** The statements that were brought in, and the form for the next. */
export const uploadPage = (
  form: FormModel,
  imports: readonly BankImport[],
  { zone }: StudioIdentity,
): Drawn => ({
  template: 'paper-room/bank/upload',
  words: {
    title: 'Bank statements',
    room: 'papers',
    crumbs: [papersCrumb, paymentsCrumb],
    form: { ...form, action: `${bankUrl}/columns` },
    any: imports.length > 0,
    imports: {
      caption: 'Statements brought in, newest first',
      columns: [{ text: 'When' }, { text: 'Lines', figure: true }, { text: 'Here before', figure: true }],
      rows: imports.map((one) => ({
        cells: [
          { text: instantInWords(one.broughtAt, zone), href: `${bankUrl}/${one.id}` },
          { text: String(one.lines) },
          { text: String(one.known) },
        ],
      })),
    },
    leave: { text: 'Back to the payments', href: '/papers/payments' },
  },
});

export const uploadForm = (): FormModel => freshForm('', { headed: 'yes' });

/** What each column is likely to hold, as a form. */
export const columnsForm = (table: TextTable, headed: boolean): FormModel =>
  freshForm('', {
    headed: headed ? 'yes' : 'no',
    ...Object.fromEntries(likelyColumns(table.heads).map((guess, place) => [`to.${place}`, guess ?? ''])),
  });

/** What the columns of a statement hold, and what of it could not be read. */
export const columnsPage = (
  table: TextTable,
  carried: string,
  form: FormModel,
  read: BankLines | undefined,
): Drawn => {
  const troubles = read?.troubles ?? [];
  return {
    template: 'paper-room/bank/columns',
    words: {
      title: 'What each column holds',
      room: 'papers',
      crumbs: [papersCrumb, paymentsCrumb, bankCrumb],
      form: { ...form, action: `${bankUrl}/bring` },
      carried,
      headed: form.values.headed ?? '',
      found: `${table.rows.length} ${table.rows.length === 1 ? 'line was' : 'lines were'} found. Nothing is booked by bringing them in.`,
      columns: [
        {
          text: 'Holds',
          wide: true,
          options: Object.entries(BANK_COLUMNS).map(([value, text]) => ({ value, text })),
        },
      ],
      rows: table.heads.map((head, place) => ({
        label: `${head}${table.rows[0]?.cells[place] ? `: ${(table.rows[0].cells[place] ?? '').slice(0, 60)}` : ''}`,
        names: [`to.${place}`],
      })),
      anyTroubles: troubles.length > 0,
      troubles: {
        caption: 'Lines that cannot be read',
        columns: [{ text: 'Line', figure: true }, { text: 'What is wrong' }],
        rows: troubles
          .slice(0, MOST_SHOWN)
          .map(({ line, text }) => ({ cells: [{ text: String(line) }, { text }] })),
      },
      leave: { text: 'Another file', href: bankUrl },
    },
  };
};

const STANDING: Readonly<Record<LineStanding, string>> = {
  open: 'open',
  aside: 'set aside',
  taken: 'taken as a payment',
};

const optionsOf = (line: KeptBankLine, matches: readonly Match[], { index, numbers }: Matching) => [
  { value: '', text: 'Leave it for now', hint: '' },
  ...matches.map(({ clientId, papers, sureness, why }) => ({
    value: choiceText(clientId, papers),
    text: [
      index.names.get(clientId) ?? '',
      papers.length > 0 ? papers.map((id) => numbers.get(id) ?? '').join(', ') : 'what is due first',
    ].join(': '),
    hint: `${SURENESS[sureness]}. ${why.join(' ')}`,
  })),
  {
    value: 'aside',
    text: 'Set it aside',
    hint: line.amount.isNegative() ? 'This money went out.' : 'It is no payment of a client.',
  },
];

/** The first choice of each line: a proposal only where it is sure. Nothing is booked before the button is pressed. */
export const linesForm = (page: PageOf<KeptBankLine>, matches: readonly (readonly Match[])[]): FormModel =>
  freshForm(
    '',
    Object.fromEntries(
      page.items.map((line, place) => {
        const [best] = matches[place] ?? [];
        const sure = best?.sureness === 'sure' ? choiceText(best.clientId, best.papers) : '';
        return [`line.${line.id}`, sure];
      }),
    ),
  );

/** One statement: its lines, what each may be, and what is to be done with it. */
export const statementPage = (
  form: FormModel,
  told: {
    readonly statement: BankImport;
    readonly counts: Record<LineStanding, number>;
    readonly page: PageOf<KeptBankLine>;
    readonly matches: readonly (readonly Match[])[];
    readonly matching: Matching;
    readonly after: string;
    readonly identity: StudioIdentity;
  },
): Drawn => {
  const { statement, counts, page, matches, matching, after, identity } = told;
  const url = `${bankUrl}/${statement.id}`;
  const open = page.items.flatMap((line, place) => (line.standing === 'open' ? [{ line, place }] : []));
  return {
    template: 'paper-room/bank/statement',
    words: {
      title: `Bank statement of ${instantInWords(statement.broughtAt, identity.zone)}`,
      room: 'papers',
      crumbs: [papersCrumb, paymentsCrumb, bankCrumb],
      form: { ...form, action: `${url}${after ? `?after=${after}` : ''}` },
      lead: `${lines(counts.open)} open, ${counts.taken} taken as payments, ${counts.aside} set aside.${
        statement.known > 0
          ? ` ${lines(statement.known)} of the file were here before and came in once only.`
          : ''
      }${statement.leftOut > 0 ? ` ${lines(statement.leftOut)} could not be read and were left out.` : ''}`,
      anyOpen: open.length > 0,
      open: open.map(({ line, place }) => ({
        name: `line.${line.id}`,
        who: line.amount.minor > 0 ? `who.${line.id}` : '',
        label: `${dateInWords(line.on)}, ${moneyInWords(line.amount, identity.locale)}${line.payer ? `, ${line.payer}` : ''}`,
        words: line.words,
        options: optionsOf(line, matches[place] ?? [], matching),
      })),
      anyDone: page.items.length > open.length,
      done: {
        caption: 'Lines that something was done with',
        columns: [
          { text: 'Date' },
          { text: 'Who' },
          { text: 'How it stands' },
          { text: 'Amount', figure: true },
        ],
        rows: page.items
          .filter(({ standing }) => standing !== 'open')
          .map((line) => ({
            cells: [
              { text: dateInWords(line.on) },
              { text: line.payer || line.words.slice(0, 80) },
              line.paymentId
                ? { text: STANDING[line.standing], href: paymentUrl(line.paymentId) }
                : { text: STANDING[line.standing] },
              { text: moneyInWords(line.amount, identity.locale) },
            ],
          })),
      },
      pager: {
        label: 'Lines',
        ...(after ? { earlier: { text: 'From the first line', href: url } } : {}),
        ...(page.next ? { later: { text: 'Further lines', href: `${url}?after=${page.next}` } } : {}),
      },
    },
  };
};
