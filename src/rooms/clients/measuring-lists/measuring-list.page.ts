import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { KeptType } from '../../../storage/books/making-book.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { clientsCrumb } from '../client.page.js';
import { wordsOf } from '../measurements/measuring-rows.js';

export const listsUrl = '/clients/measuring-lists';
const listUrl = (type: string): string => `${listsUrl}/${type}`;

/** Which measurements are taken for which type. */
export const measuringListsPage = (types: readonly KeptType[]): PageWords => ({
  title: 'Measuring lists',
  room: 'clients',
  crumbs: [clientsCrumb],
  lists: {
    caption: 'Measuring lists',
    quietCaption: true,
    columns: [{ text: 'Garment type' }, { text: 'Measurements', figure: true }],
    rows: types.map(({ id, name, measuringList }) => ({
      cells: [{ text: name, href: listUrl(id) }, { text: `${measuringList.length}` }],
    })),
  },
});

/** A list as a person writes it: one name a line. */
export const listInWords = (list: readonly string[], known: readonly BodyDimension[]): string =>
  list
    .map((id) => known.find((one) => one.id === id))
    .map((dimension) => dimension?.tradeWord || dimension?.name || '')
    .join('\n');

export const listForm = (type: KeptType, known: readonly BodyDimension[]): FormModel =>
  freshForm(listUrl(type.id), { list: listInWords(type.measuringList, known) }, type.version);

/** One list to change. */
export const measuringListPage = (
  type: KeptType,
  known: readonly BodyDimension[],
  form: FormModel,
): { template: string; words: PageWords } => ({
  template: 'clients/measuring-list',
  words: {
    title: `What is measured for: ${type.name}`,
    room: 'clients',
    crumbs: [clientsCrumb, { text: 'Measuring lists', href: listsUrl }],
    form: { ...form, action: listUrl(type.id) },
    known: {
      caption: 'What can be measured',
      columns: [{ text: 'Word' }, { text: 'Name in the standard' }, { text: 'How' }],
      rows: known.map((dimension) => {
        const { word, iso } = wordsOf(dimension);
        return { cells: [{ text: word }, { text: iso }, { text: dimension.how }] };
      }),
    },
    leave: { text: 'Leave it as it is', href: listsUrl },
  },
});
