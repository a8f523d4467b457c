import type { Client } from '../../../domain/clients/client.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { GarmentType } from '../../../domain/making/garment-type.js';
import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import { FIGURATION_WORDS } from '../../../domain/measuring/figuration.js';
import { readLength } from '../../../domain/measuring/length-entry.js';
import type { PreferredUnit } from '../../../domain/measuring/length-unit.js';
import { isChild } from '../../../domain/measuring/questions.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { KeptSet } from '../../../storage/books/measuring/measurement-book.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { dateInWords } from '../../../web/words/dates.js';
import { lengthForField } from '../../../web/words/lengths.js';
import { clientsCrumb, clientUrl } from '../client.page.js';
import { aboutField, dimensionsToTake, measuringRows } from './measuring-rows.js';
import type { Question } from './read-values.js';
import { earlierThan, lastTaken } from './standing.js';
import { EXTRA_ROWS, figurationFields, figurationOf, tickOf } from './take.form.js';

/** Everything the page of measuring is drawn from. */
export type MeasuringDesk = {
  readonly client: Client;
  readonly sets: readonly KeptSet[];
  readonly types: readonly GarmentType[];
  readonly known: readonly BodyDimension[];
  readonly unit: PreferredUnit;
  readonly today: CalendarDate;
};

export const measurementsUrl = (clientId: string): string => `${clientUrl(clientId)}/measurements`;
export const setUrl = (set: Pick<KeptSet, 'wearer' | 'id'>): string =>
  `${measurementsUrl(set.wearer)}/${set.id}`;

/** What people wear to be measured, to choose from. */
const WORN = ['shirt', 'shirt and trousers', 'underclothes', 'shift', 'stays, laced', 'shirt and waistcoat'];

/** A new set, begun with what is likely to be as last time. */
export const newSetForm = (desk: MeasuringDesk, hand: string, type: string): FormModel => {
  const last = desk.sets.at(-1);
  return freshForm(measurementsUrl(desk.client.id), {
    takenOn: desk.today,
    takenBy: hand,
    over: last?.over ?? '',
    guardian: desk.client.guardian,
    garmentType: type || last?.garmentType || '',
    ...figurationFields(last?.figuration ?? ''),
  });
};

/** A set taken again: it starts with the values of the one that it mends. */
export const againForm = (desk: MeasuringDesk, mends: KeptSet): FormModel =>
  freshForm(measurementsUrl(desk.client.id), {
    takenOn: mends.takenOn,
    takenBy: mends.takenBy,
    over: mends.over,
    guardian: mends.guardian,
    garmentType: mends.garmentType,
    insteadOf: mends.id,
    ...figurationFields(mends.figuration),
    ...Object.fromEntries(
      mends.values.map(({ dimension, entry }): [string, string] => {
        const read = readLength(entry.typed, { preferred: desk.unit, signed: true });
        const same = read.kind === 'ok' && read.value.mm === entry.mm;
        return [`v.${dimension}`, same ? entry.typed : lengthForField(entry)];
      }),
    ),
  });

/** The page on which a client is measured, row by row. */
export const takePage = (
  desk: MeasuringDesk,
  form: FormModel,
  questions: ReadonlyMap<string, Question> = new Map(),
): { template: string; words: PageWords } => {
  const { client, sets } = desk;
  const typed = form.values;
  const mends = sets.find(({ id }) => id === typed.insteadOf);
  const last = lastTaken(earlierThan(sets, { takenOn: typed.takenOn || desk.today, insteadOf: mends?.id }));
  const list = desk.types.find(({ id }) => id === typed.garmentType)?.measuringList ?? [];
  const { listed, before } = dimensionsToTake(desk.known, list, last, typed);
  const said = (field: string): string => typed[field] ?? '';
  return {
    template: 'clients/measure',
    words: {
      title: mends ? `Take again: ${client.name}` : `Measure ${client.name}`,
      tab: `Measure ${client.code}`,
      room: 'clients',
      crumbs: [clientsCrumb, { text: client.name, href: clientUrl(client.id) }],
      form: { ...form, action: measurementsUrl(client.id) },
      code: client.code,
      units: desk.unit === 'in' ? 'inches' : 'centimetres',
      examples:
        desk.unit === 'in'
          ? '38\u00a01/2, 38½\u00a0full or 97.8\u00a0cm'
          : '97.8, 97,8 or 38\u00a01/2\u00a0in',
      mends: mends
        ? `This takes the set of ${dateInWords(mends.takenOn)} again and starts with its values. The old set stays readable; the new one stands in its place.`
        : '',
      insteadOf: mends?.id ?? '',
      child: isChild(client.birthDate, desk.today, client.isChild) || said('guardian') !== '',
      worn: WORN,
      lists: desk.types.map(({ id, name }) => ({ value: id, text: name })),
      listUrl: `${measurementsUrl(client.id)}/list`,
      nothingListed: listed.length + before.length === 0,
      listed: measuringRows(listed, last, typed, questions),
      before: measuringRows(before, last, typed, questions),
      extras: EXTRA_ROWS.map((row) => ({
        label: `Another measurement, ${row + 1}`,
        name: `extra.${row}.name`,
        value: `extra.${row}.value`,
        aboutName: aboutField(`extra.${row}.name`, said(`extra.${row}.name`), typed, questions),
        aboutValue: aboutField(`extra.${row}.value`, said(`extra.${row}.value`), typed, questions),
      })),
      names: desk.known.map(({ tradeWord, name }) => tradeWord || name),
      figurationWords: FIGURATION_WORDS.map((word) => ({ name: tickOf(word), label: word })),
      aboutFiguration: aboutField('figuration', figurationOf(typed), typed, questions),
      leave: { text: 'Leave without keeping', href: clientUrl(client.id) },
    },
  };
};
