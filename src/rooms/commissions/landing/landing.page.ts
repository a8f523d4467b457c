import { standingEntries } from '../../../domain/bench/worked.js';
import type { Money } from '../../../domain/kernel/money.js';
import { MODE_WORDS, STAGE_WORDS } from '../../../domain/making/mode.js';
import { MONEY_OUT_KINDS } from '../../../domain/money-out/money-out.js';
import { ENTRY_WORDS } from '../../../domain/stock/entry.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import type { LandingTold } from './gather-landing.js';
import { chancesTable, landingPairs, leadInWords, restsInWords } from './landing-words.js';
import { sheetTable } from './sheet.table.js';
import { stripFigures, stripPicture } from './strip.picture.js';

export const landingUrl = (commissionId: string, garmentId: string): string =>
  `${garmentUrl(commissionId, garmentId)}/landing`;

/** The section on a job sheet: a sentence, a few figures, and the way to all of them. */
export const landingSection = (told: LandingTold): object => {
  const { garment } = told.work.planned;
  const { locale } = told.studio.identity;
  const url = landingUrl(garment.commissionId, garment.id);
  return {
    lead: leadInWords(told.landing, locale),
    pairs: landingPairs(told.landing, url, locale),
    earned: earnedPairs(told.landing.earned, locale),
    url,
  };
};

/** Everything behind it: the cost sheet in four columns, the chances, each operation, each entry. */
export const landingPage = (told: LandingTold): PageWords => {
  const { commission, work, landing, studio, planned } = told;
  const { garment } = work.planned;
  const { locale } = studio.identity;
  const picture = stripPicture(stripFigures(planned.minutes, landing));
  return {
    title: `Where it will land: ${capitalised(garment.name)}`,
    room: 'commissions',
    crumbs: [
      ...commissionCrumbs(commission),
      { text: capitalised(garment.name), href: garmentUrl(commission.id, garment.id) },
    ],
    lead: leadInWords(landing, locale),
    rests: restsInWords(landing),
    strip: picture,
    priceSaid: told.isAgreed
      ? `The price is the one agreed, ${moneyInWords(landing.price, locale)} before tax.`
      : `No price is agreed yet: the price is what would be asked today, ${moneyInWords(landing.price, locale)} before tax.`,
    sheet: sheetTable(planned, landing, work.reckoned, locale),
    chances: chancesTable(landing, locale),
    earned: earnedPairs(landing.earned, locale),
    operations: operationsTable(told),
    beside: besideInWords(told),
    anyEntries: work.entries.length > 0,
    entries: entriesTable(told),
    anyMaterials: told.materials.length > 0,
    materials: materialsTable(told),
    expenses: expensesTable(told),
    anyExpenses: work.planned.expenses.length + told.bills.length > 0,
  };
};

const STATE_WORDS = { 'to-do': 'to do', 'under-way': 'under way', finished: 'finished' } as const;

const operationsTable = ({ landing: { progress } }: LandingTold): object => ({
  caption: 'Operations',
  columns: [
    { text: 'Operation' },
    { text: 'Planned', figure: true },
    { text: 'So far', figure: true },
    { text: 'How it stands' },
  ],
  rows: progress.operations.map(({ operation, planned, minutes, state }) => ({
    cells: [
      { text: operation.name, note: STAGE_WORDS[operation.stage] },
      { text: minutesInWords(planned) },
      { text: minutesInWords(minutes) },
      {
        text: STATE_WORDS[state],
        ...(planned > 0 && minutes > planned ? { note: `${minutesInWords(minutes - planned)} over` } : {}),
      },
    ],
  })),
});

/** Minutes that stand with no operation, and what was left out. */
const besideInWords = ({ landing: { progress } }: LandingTold): string[] => [
  ...(progress.ownError > 0
    ? [`Own error: ${minutesInWords(progress.ownError)}, paid for like the rest, and no measure of the work.`]
    : []),
  ...(progress.beside > 0 ? [`In no line of the plan: ${minutesInWords(progress.beside)}.`] : []),
  ...(progress.leftOut.length > 0
    ? [`Left out: ${progress.leftOut.map(({ name }) => name).join(', ')}.`]
    : []),
];

const entriesTable = ({ work }: LandingTold): object => ({
  caption: 'Minutes, entry by entry',
  columns: [{ text: 'Day' }, { text: 'Work' }, { text: 'Who' }, { text: 'Minutes', figure: true }],
  rows: standingEntries(work.entries).map((entry) => ({
    cells: [
      { text: dateInWords(entry.on) },
      {
        text: entry.name || (entry.stage ? STAGE_WORDS[entry.stage] : 'Work'),
        note: [entry.mode ? MODE_WORDS[entry.mode] : '', entry.cause ?? '', entry.note]
          .filter(Boolean)
          .join(', '),
      },
      { text: entry.personName },
      { text: minutesInWords(entry.minutes) },
    ],
  })),
});

const materialsTable = ({ materials, studio }: LandingTold): object => ({
  caption: 'Materials, movement by movement',
  columns: [{ text: 'Day' }, { text: 'Material' }, { text: 'What happened' }, { text: 'Cost', figure: true }],
  rows: materials.map(({ on, name, kind, cost, materialId }) => ({
    cells: [
      { text: dateInWords(on) },
      { text: name, href: `/cloth-room/materials/${materialId}` },
      { text: ENTRY_WORDS[kind] },
      { text: amountInWords(cost, studio.identity.locale) },
    ],
  })),
});

/** What is planned, then what was paid. */
const expensesTable = ({ work, studio, bills }: LandingTold): object => {
  const amount = (money: Money): string => amountInWords(money, studio.identity.locale);
  return {
    caption: 'Expenses, planned and paid',
    columns: [{ text: 'What for' }, { text: 'Planned', figure: true }, { text: 'So far', figure: true }],
    rows: [
      ...work.planned.expenses.map((line) => ({
        cells: [{ text: line.name }, { text: amount(line.amount) }, { text: '' }],
      })),
      ...bills.map((bill) => ({
        cells: [
          { text: bill.what || MONEY_OUT_KINDS[bill.kind].words, note: dateInWords(bill.on) },
          { text: '' },
          { text: amount(bill.amount) },
        ],
      })),
    ],
  };
};

/** The textbook figures, said once what they are. */
const earnedPairs = (earned: LandingTold['landing']['earned'], locale: string): object[] => {
  if (!earned) return [];
  const money = (amount: Money | null): string => (amount ? moneyInWords(amount, locale) : 'not known');
  return [
    {
      label: 'Budget at completion',
      text: money(earned.budgetAtCompletion),
      note: 'the plan’s time at today’s rates',
    },
    { label: 'Earned value', text: money(earned.earnedValue), note: 'the part of it that is done' },
    { label: 'Actual cost', text: money(earned.actualCost), note: 'of time so far' },
    { label: 'Cost variance', text: money(earned.costVariance) },
    { label: 'Cost performance', text: earned.costPerformance?.toDecimalPlaces(2).toFixed(2) ?? 'not known' },
    { label: 'Estimate at completion', text: money(earned.estimateAtCompletion) },
    { label: 'Planned value', text: 'not known', note: 'needs a plan with dates' },
  ];
};
