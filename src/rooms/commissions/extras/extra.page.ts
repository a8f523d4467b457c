import type { Commission } from '../../../domain/commissions/commission.js';
import { type Extra, extraName, takingBack } from '../../../domain/commissions/extra.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import {
  dayForClient,
  extraPriceInWords,
  extraStateInWords,
  extrasTable,
  extrasUrl,
  extraUrl,
  priceForClient,
} from './extra-words.js';

type Drawn = { template: string; words: PageWords };

export type ExtraTold = {
  readonly studio: Studio;
  readonly commission: Commission;
  readonly garment: Garment | undefined;
  readonly extra: Extra;
  /** Every extra of the commission. */
  readonly others: readonly Extra[];
  readonly today: CalendarDate;
  readonly clientName: string;
};

/** The studio's own page of one extra: what it is, how it stands, what was answered. */
export const extraPage = (told: ExtraTold, form?: FormModel): Drawn => {
  const { extra, others, commission, studio, today } = told;
  const url = extraUrl(extra);
  const isOpen = extra.state === 'offered';
  return {
    template: 'commissions/extras/extra',
    words: {
      title: `${capitalised(extraName(extra))}, ${commission.number}`,
      room: 'commissions',
      crumbs: [...commissionCrumbs(commission), { text: 'Extras', href: extrasUrl(commission.id) }],
      form: {
        ...(form ??
          freshForm('', { act: 'agreed', on: today, byWhom: told.clientName, how: '' }, extra.version)),
        action: `${url}/answer`,
      },
      wording: extra.wording,
      facts: factsOf(told),
      work: workTable(extra),
      isOpen,
      card: `${url}/card`,
      cardPdf: `${url}/card.pdf`,
      acts: [
        { value: 'agreed', text: 'Agreed', hint: 'It goes into the plan, and on the invoice.' },
        { value: 'declined', text: 'Declined', hint: '' },
        {
          value: 'given',
          text: 'Given with our compliments',
          hint: 'Into the plan; on the invoice at nil price.',
        },
        { value: 'withdrawn', text: 'Withdrawn by us', hint: '' },
      ],
      mayGive: extra.state === 'declined',
      give: {
        action: `${url}/answer`,
        text: 'Give it all the same, with our compliments',
        once: freshForm('').once,
        values: { act: 'given', on: today, version: String(extra.version) },
      },
      mayTakeBack: mayTakeBack(extra, others),
      takeBack: {
        action: `${url}/take-back`,
        text: 'Offer to take it back',
        once: freshForm('').once,
        values: { wording: `Without: ${extra.wording}`.slice(0, 400) },
      },
      locale: studio.identity.locale,
    },
  };
};

const mayTakeBack = (extra: Extra, others: readonly Extra[]): boolean => {
  try {
    takingBack(extra, others, extra.wording);
    return true;
  } catch {
    return false;
  }
};

const factsOf = ({ extra, others, garment, commission, studio }: ExtraTold): object[] => {
  const back = others.find(({ id }) => id === extra.takesBack);
  return [
    garment
      ? { label: 'Garment', text: garment.name, href: garmentUrl(commission.id, garment.id) }
      : { label: 'Garment', text: 'no longer in the commission' },
    { label: 'Cause', text: causeRule(extra.cause).words },
    {
      label: 'Price',
      text: extraPriceInWords(extra, studio.identity.locale),
      ...(extra.kind === 'charged'
        ? { note: extra.pricesInclude === 'tax' ? 'with tax' : 'before tax' }
        : {}),
    },
    { label: 'Ready', text: dayForClient(extra) },
    { label: 'Offered', text: dateInWords(extra.offeredOn) },
    { label: 'How it stands', text: extraStateInWords(extra, others) },
    ...(extra.answer?.words ? [{ label: 'In their words', text: extra.answer.words }] : []),
    ...(back ? [{ label: 'Takes back', text: `Extra ${back.number}`, href: extraUrl(back) }] : []),
  ];
};

const workTable = ({ work }: Extra): object => ({
  caption: 'What it puts into the plan, and what it takes out',
  columns: [{ text: 'Line' }, { text: 'In or out' }, { text: 'Planned', figure: true }],
  rows: [
    ...work.operations.map(
      ({ sign, line }) => [line.name, sign, minutesInWords(plannedMinutes(line))] as const,
    ),
    ...work.materials.map(
      ({ sign, line }) => [line.name, sign, `${line.quantity.toFixed()} ${line.unit}`] as const,
    ),
    ...work.expenses.map(({ sign, line }) => [line.name, sign, line.amount.toString()] as const),
  ].map(([name, sign, planned]) => ({
    cells: [{ text: name }, { text: sign === 1 ? 'in' : 'out' }, { text: planned }],
  })),
});

/** The extras of a commission. */
export const extrasPage = (
  studio: Studio,
  commission: Commission,
  extras: readonly Extra[],
  garments: readonly Garment[],
): Drawn => ({
  template: 'commissions/extras/list',
  words: {
    title: `Extras of ${commission.number}`,
    room: 'commissions',
    crumbs: commissionCrumbs(commission),
    any: extras.length > 0,
    extras: extrasTable(extras, studio.identity.locale, new Map(garments.map(({ id, name }) => [id, name]))),
    begin: garments.map(({ id, name }) => ({
      text: name,
      href: `${garmentUrl(commission.id, id)}/extras/new`,
    })),
  },
});

/**
 * The card that is shown to the client: price, day and words, and nothing else; it stands outside the rooms, so that the page
 * behind it tells no more than the page itself.
 */
export const cardPage = ({ extra, garment, studio, clientName }: ExtraTold, form?: FormModel): Drawn => ({
  template: 'commissions/extras/card',
  words: {
    title: `${capitalised(extraName(extra))} for your approval`,
    room: 'none',
    signedInAs: '',
    form: {
      ...(form ?? freshForm('', { byWhom: clientName, how: 'in person' }, extra.version)),
      action: `${extraUrl(extra)}/card`,
    },
    garment: garment ? capitalised(garment.name) : '',
    wording: extra.wording,
    pairs: [
      { label: 'Price', text: priceForClient(extra, studio.identity.locale) },
      { label: 'Ready', text: dayForClient(extra) },
    ],
    isOpen: extra.state === 'offered',
    isGiven: extra.state === 'agreed' && extra.kind === 'compliments',
    answered: answeredForClient(extra),
  },
});

const answeredForClient = ({ state, answer, kind }: Extra): string => {
  if (state === 'offered' || !answer) return '';
  if (state === 'agreed' && kind === 'compliments') return 'This is ours to give.';
  const by = answer.byWhom ? ` by ${answer.byWhom}` : '';
  return `${capitalised(state)}${by} on ${dateInWords(answer.on)}.`;
};
