import type { StudioIdentity } from '../../domain/house/studio.js';
import { Money } from '../../domain/kernel/money.js';
import { MATERIAL_KINDS, type Material } from '../../domain/stock/material.js';
import type { Link } from '../../printing/templates/page-model.js';
import type { PageOf } from '../../storage/books/client-book.js';
import type { OnHand } from '../../storage/books/cloth-room/lot-book.js';
import type { PageWords } from '../../web/reply.js';
import { amountInWords, moneyInWords } from '../../web/words/amounts.js';
import { inWords } from './stock-fields.js';

export const clothRoomCrumb: Link = { text: 'Cloth room', href: '/cloth-room' };
export const materialUrl = (id: string): string => `/cloth-room/materials/${id}`;
export const lotUrl = (id: string): string => `/cloth-room/lots/${id}`;
export const supplierUrl = (id: string): string => `/cloth-room/suppliers/${id}`;
export const purchaseUrl = (id: string): string => `/cloth-room/purchases/${id}`;

/** Where else the cloth room goes. */
const WAYS: readonly Link[] = [
  { text: 'Shopping list', href: '/cloth-room/shopping-list' },
  { text: 'Purchases', href: '/cloth-room/purchases' },
  { text: 'Suppliers', href: '/cloth-room/suppliers' },
  { text: 'Stocktake', href: '/cloth-room/stocktake' },
  { text: 'How much cloth', href: '/cloth-room/need' },
  { text: 'How much thread', href: '/cloth-room/thread' },
];

/** What is on the shelves: each material, how much is there and what it is worth. */
export const clothRoomPage = (
  found: PageOf<Material>,
  onHand: ReadonlyMap<string, OnHand>,
  { asked, after }: { readonly asked: string; readonly after: string },
  { locale, currency }: StudioIdentity,
): PageWords => {
  const any = found.items.length > 0;
  const total = Money.sum(
    [...onHand.values()].map(({ value }) => value),
    currency,
  );
  const query = asked ? `q=${encodeURIComponent(asked)}&` : '';
  return {
    title: asked ? `Cloth room: ${asked}` : 'Cloth room',
    room: 'cloth-room',
    asked,
    any,
    emptyRoom: !any && !asked && !after,
    ways: [...WAYS],
    worth: `Everything on the shelves stands in the book at ${moneyInWords(total, locale)}.`,
    found: {
      caption: 'Materials by name',
      quietCaption: true,
      columns: [
        { text: 'Material' },
        { text: 'Kind' },
        { text: 'Where it lies' },
        { text: 'On hand', figure: true },
        { text: `Book value, ${currency}`, figure: true },
      ],
      rows: found.items.map((material) => {
        const there = onHand.get(material.id);
        const custody = there?.custody.gt(0)
          ? { note: `and ${inWords(there.custody, material.unit, locale)} of clients’ own` }
          : {};
        return {
          cells: [
            { text: material.name, href: materialUrl(material.id) },
            { text: MATERIAL_KINDS[material.kind] },
            { text: material.place },
            { text: there ? inWords(there.left, material.unit, locale) : 'none', ...custody },
            { text: there ? amountInWords(there.value, locale) : '' },
          ],
        };
      }),
    },
    pager: {
      label: 'Materials',
      ...(after ? { earlier: { text: 'From the beginning', href: `/cloth-room?${query}` } } : {}),
      ...(found.next
        ? { later: { text: 'Further on', href: `/cloth-room?${query}after=${found.next}` } }
        : {}),
    },
  };
};
