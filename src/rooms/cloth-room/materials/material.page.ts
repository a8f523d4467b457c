import type { Photo } from '../../../domain/fitting/photo.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import { ENTRY_WORDS, type StockEntry } from '../../../domain/stock/entry.js';
import type { Lot } from '../../../domain/stock/lot.js';
import {
  MATERIAL_KINDS,
  type Material,
  METHOD_WORDS,
  type Supplier,
} from '../../../domain/stock/material.js';
import type { OpenPromise } from '../../../domain/stock/promised.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { ServedGarment } from '../../../storage/books/cloth-room/served-garments.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { clothRoomCrumb, lotUrl, materialUrl, supplierUrl } from '../cloth-room.page.js';
import { originInWords } from '../lots/lot-words.js';
import { promisesTable } from '../reservations/reservation.page.js';
import { inWords } from '../stock-fields.js';
import { KIND_CHOICES, METHOD_CHOICES, UNIT_CHOICES } from './material.form.js';

/** The form for a new material, or to correct one. */
export const materialFormPage = (
  form: FormModel,
  suppliers: readonly Supplier[],
  material?: Material,
): { template: string; words: PageWords } => ({
  template: 'cloth-room/materials/material-form',
  words: {
    title: material ? `Correct ${material.name}` : 'New material',
    room: 'cloth-room',
    crumbs: material
      ? [clothRoomCrumb, { text: material.name, href: materialUrl(material.id) }]
      : [clothRoomCrumb],
    form: { ...form, action: material ? materialUrl(material.id) : '/cloth-room/materials' },
    leave: { text: 'Leave without saving', href: material ? materialUrl(material.id) : '/cloth-room' },
    kinds: KIND_CHOICES,
    units: UNIT_CHOICES,
    methods: METHOD_CHOICES,
    suppliers: suppliers.map(({ id, name }) => ({ value: id, text: name })),
  },
});

/** Everything a material's page tells. */
export type MaterialTold = {
  readonly material: Material;
  readonly supplier: Supplier | undefined;
  readonly lots: readonly Lot[];
  readonly entries: readonly StockEntry[];
  readonly promises: readonly OpenPromise[];
  readonly garments: ReadonlyMap<string, ServedGarment>;
  readonly identity: StudioIdentity;
  /** The newest photographs of its swatch. */
  readonly swatches: readonly Photo[];
};

/** One material: what it is, the pieces there are of it, and what happened to it. */
export const materialPage = (told: MaterialTold): PageWords => {
  const { material, supplier, lots, entries, promises, identity } = told;
  const { locale, currency } = identity;
  const url = materialUrl(material.id);
  const there = lots.filter(({ left }) => left.gt(0));
  const ours = there.filter(({ origin }) => origin !== 'custody');
  const left = ours.reduce((sum, lot) => sum.plus(lot.left), new Decimal(0));
  const value = Money.sum(
    ours.map((lot) => lot.value),
    currency,
  );
  return {
    title: material.name,
    room: 'cloth-room',
    crumbs: [clothRoomCrumb],
    url,
    id: material.id,
    lead: left.isZero()
      ? 'There is none of it at present.'
      : `${inWords(left, material.unit, locale)} are here, in the book at ${moneyInWords(value, locale)}.`,
    facts: factsOf(material, supplier),
    swatches: told.swatches.map(({ id: photo, words }) => ({
      small: `/photos/${photo}/small`,
      whole: `/photos/${photo}/picture`,
      alt: words || `Swatch of ${material.name}`,
    })),
    any: there.length > 0,
    everAny: lots.length > 0,
    lots: {
      caption: 'What there is',
      columns: [
        { text: 'Lot' },
        { text: 'Came' },
        { text: 'Width' },
        { text: 'Left', figure: true },
        { text: `Value, ${currency}`, figure: true },
      ],
      rows: there.map((lot) => ({
        cells: [
          {
            text: lot.code,
            href: lotUrl(lot.id),
            note: [originInWords(lot), lot.dyeLot].filter(Boolean).join(', '),
          },
          { text: dateInWords(lot.cameOn) },
          { text: lot.width.shown || material.width.shown },
          { text: inWords(lot.left, material.unit, locale) },
          { text: lot.origin === 'custody' ? 'not ours' : amountInWords(lot.value, locale) },
        ],
      })),
    },
    anyPromised: promises.length > 0,
    promised: promisesTable(promises, told.garments, material, identity),
    anyEntries: entries.length > 0,
    entries: entriesTable(entries, material, identity),
  };
};

const factsOf = (material: Material, supplier: Supplier | undefined): object[] =>
  [
    { label: 'Kind', text: capitalised(MATERIAL_KINDS[material.kind]) },
    { label: 'Width', text: material.width.shown },
    { label: 'Fibres', text: material.fibres },
    { label: 'Care', text: material.care },
    { label: 'Pattern repeat', text: material.patternRepeat.shown },
    { label: 'Nap', text: material.hasNap ? 'one direction' : '' },
    supplier
      ? { label: 'Bought from', text: supplier.name, href: supplierUrl(supplier.id) }
      : { label: '', text: '' },
    { label: 'Lies', text: material.place },
    { label: 'Issued at', text: METHOD_WORDS[material.method] },
    { label: 'Notes', text: material.notes },
  ].filter(({ text }) => text !== '');

/** Movements, newest first. */
export const entriesTable = (
  entries: readonly StockEntry[],
  { unit }: Pick<Material, 'unit'>,
  { locale, currency }: StudioIdentity,
): object => ({
  caption: 'What happened, newest first',
  columns: [
    { text: 'Movement' },
    { text: 'Day' },
    { text: 'For' },
    { text: 'Quantity', figure: true },
    { text: `Cost, ${currency}`, figure: true },
  ],
  rows: entries.map((entry) => ({
    cells: [
      {
        text: ENTRY_WORDS[entry.kind],
        href: `/cloth-room/movements/${entry.id}`,
        ...(entry.reason ? { note: entry.reason } : {}),
      },
      { text: dateInWords(entry.on) },
      entry.commissionId
        ? { text: entry.garmentName, href: `/commissions/${entry.commissionId}/materials` }
        : { text: '' },
      { text: inWords(entry.quantity, unit, locale).replace('-', '−') },
      { text: amountInWords(entry.cost, locale) },
    ],
  })),
});
