import type { Client } from '../../../domain/clients/client.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { Lot } from '../../../domain/stock/lot.js';
import type { Material } from '../../../domain/stock/material.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageWords } from '../../../web/reply.js';
import { clothRoomCrumb, lotUrl, materialUrl } from '../cloth-room.page.js';
import { inWords, unitInWords } from '../stock-fields.js';

type Drawn = { readonly template: string; readonly words: PageWords };

const AGE_CHOICES = [
  { value: 'new', text: 'new', hint: '' },
  { value: 'old', text: 'old', hint: '' },
  { value: 'unknown', text: 'nobody knows', hint: 'It is then minded as if it were old.' },
];
const crumbsOf = (material: Material) => [
  clothRoomCrumb,
  { text: material.name, href: materialUrl(material.id) },
];

/** The form that puts something owned before onto the shelf. */
export const stashPage = (form: FormModel, material: Material, identity: StudioIdentity): Drawn => ({
  template: 'cloth-room/lots/stash-form',
  words: {
    title: `${material.name} from the stash`,
    room: 'cloth-room',
    crumbs: crumbsOf(material),
    form: { ...form, action: `${materialUrl(material.id)}/stash` },
    unit: unitInWords(material.unit),
    currency: identity.currency,
    ages: AGE_CHOICES,
    leave: { text: 'Leave without saving', href: materialUrl(material.id) },
  },
});

/** The intake check of a client's own cloth. */
export const custodyPage = (form: FormModel, material: Material, clients: readonly Client[]): Drawn => ({
  template: 'cloth-room/lots/custody-form',
  words: {
    title: `A client’s own ${material.name}`,
    room: 'cloth-room',
    crumbs: crumbsOf(material),
    form: { ...form, action: `${materialUrl(material.id)}/custody` },
    unit: unitInWords(material.unit),
    ages: AGE_CHOICES,
    clients: clients.map(({ id, name, code }) => ({ value: id, text: `${name}, ${code}` })),
    leave: { text: 'Leave without saving', href: materialUrl(material.id) },
  },
});

/** The form that says better what a lot is. */
export const remarksPage = (form: FormModel, lot: Lot, material: Material, currency: string): Drawn => ({
  template: 'cloth-room/lots/lot-form',
  words: {
    title: `Say more about ${lot.code}`,
    room: 'cloth-room',
    crumbs: [...crumbsOf(material), { text: lot.code, href: lotUrl(lot.id) }],
    form: { ...form, action: lotUrl(lot.id) },
    isTheirs: lot.origin === 'custody',
    currency,
    ages: AGE_CHOICES,
    leave: { text: 'Leave as it is', href: lotUrl(lot.id) },
  },
});

/** Every piece with something left, to be gone through with the tape. */
export const stocktakePage = (
  lots: readonly Lot[],
  materials: ReadonlyMap<string, Material>,
  { locale }: StudioIdentity,
): PageWords => ({
  title: 'Stocktake',
  room: 'cloth-room',
  crumbs: [clothRoomCrumb],
  any: lots.length > 0,
  lots: {
    caption: 'Piece by piece, by the book',
    quietCaption: true,
    columns: [
      { text: 'Lot' },
      { text: 'Material' },
      { text: 'Where it lies' },
      { text: 'By the book', figure: true },
      { text: '' },
    ],
    rows: lots.map((lot) => {
      const material = materials.get(lot.materialId);
      return {
        cells: [
          { text: lot.code, href: lotUrl(lot.id) },
          { text: material?.name ?? '' },
          { text: material?.place ?? '' },
          { text: material ? inWords(lot.left, material.unit, locale) : '' },
          { text: `Measure ${lot.code} again`, href: `${lotUrl(lot.id)}#measured-again` },
        ],
      };
    }),
  },
});
