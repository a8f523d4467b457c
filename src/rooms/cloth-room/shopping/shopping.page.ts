import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { ShoppingSheet } from '../../../printing/papers/shopping-sheet.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { countInWords } from '../../../web/words/counts.js';
import { dateInWords, dayAndMonthInWords } from '../../../web/words/dates.js';
import { clothRoomCrumb, materialUrl } from '../cloth-room.page.js';
import { inWords, rateInWords } from '../stock-fields.js';
import type { ShoppingGroup, ShoppingItem } from './shopping-list.js';

const NO_SUPPLIER = 'No supplier yet';

const priceOf = ({ highest }: ShoppingItem, { locale, currency }: StudioIdentity): string =>
  `${rateInWords(highest, locale)} ${currency}`;

/** What to buy, by supplier, each with the most it may cost and a tick. */
export const shoppingPage = (groups: readonly ShoppingGroup[], identity: StudioIdentity): PageWords => {
  const items = groups.flatMap((group) => group.items);
  const open = items.filter(({ isTicked }) => !isTicked).length;
  return {
    title: 'Shopping list',
    room: 'cloth-room',
    crumbs: [clothRoomCrumb],
    any: items.length > 0,
    lead: open === 0 ? 'Everything on it is ticked.' : `${countInWords(open, 'thing')} still to buy.`,
    groups: groups.map((group) => ({
      name: group.supplierName || NO_SUPPLIER,
      items: group.items.map((item) => {
        const { line } = item;
        const url = `/cloth-room/shopping-list/${line.id}`;
        const query = [
          `line=${line.id}`,
          ...(item.material ? [`material=${item.material.id}`] : []),
          ...(group.supplierId ? [`supplier=${group.supplierId}`] : []),
        ].join('&');
        return {
          name: line.name,
          href: item.material ? materialUrl(item.material.id) : '',
          much: inWords(item.toBuy, line.unit, identity.locale),
          price: priceOf(item, identity),
          forWhat: `${line.commissionNumber} no. ${line.place}, ${line.garmentName}`,
          due: line.dueOn ? `by ${dayAndMonthInWords(line.dueOn)}` : '',
          ticked: item.isTicked,
          tick: {
            action: `${url}/${item.isTicked ? 'untick' : 'tick'}`,
            text: item.isTicked ? 'Not bought after all' : 'Bought',
            label: `${item.isTicked ? 'Not bought after all' : 'Bought'}: ${line.name} for ${line.garmentName}`,
            once: freshForm('').once,
          },
          deliver: `/cloth-room/purchases/new?${query}`,
        };
      }),
    })),
  };
};

/** The list as it is printed: no client's name on it. */
export const shoppingSheet = (
  groups: readonly ShoppingGroup[],
  identity: StudioIdentity,
  today: string,
): ShoppingSheet => ({
  language: identity.locale,
  studio: identity.name,
  date: dateInWords(today),
  suppliers: groups
    .map((group) => ({
      name: group.supplierName || NO_SUPPLIER,
      items: group.items
        .filter(({ isTicked }) => !isTicked)
        .map((item) => ({
          name: item.line.name,
          length: inWords(item.toBuy, item.line.unit, identity.locale),
          highest: priceOf(item, identity),
          due: item.line.dueOn ? dayAndMonthInWords(item.line.dueOn) : '',
          garment: `${item.line.commissionNumber} no. ${item.line.place}`,
        })),
    }))
    .filter(({ items }) => items.length > 0),
});
