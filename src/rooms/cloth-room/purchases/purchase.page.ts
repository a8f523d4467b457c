import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import type { Lot } from '../../../domain/stock/lot.js';
import type { Material, Supplier } from '../../../domain/stock/material.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageOf } from '../../../storage/books/client-book.js';
import type { AcceptedLine } from '../../../storage/books/cloth-room/accepted-lines.js';
import { comesTo, type Purchase } from '../../../storage/books/cloth-room/purchase-book.js';
import type { PaidOut } from '../../../storage/books/money-out/paid-out-book.js';
import { gridRows } from '../../../web/forms/closed-up.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { clothRoomCrumb, lotUrl, purchaseUrl, supplierUrl } from '../cloth-room.page.js';
import { inWords, rateInWords } from '../stock-fields.js';
import { LINE_FIELDS } from './purchase.form.js';

const purchasesCrumb = { text: 'Purchases', href: '/cloth-room/purchases' };

/** Purchases, newest first. */
export const purchasesPage = (
  found: PageOf<Purchase>,
  suppliers: ReadonlyMap<string, string>,
  { locale, currency }: StudioIdentity,
  { supplier, after }: { readonly supplier: string; readonly after: string },
): PageWords => {
  const query = supplier ? `supplier=${supplier}&` : '';
  return {
    title: 'Purchases',
    room: 'cloth-room',
    crumbs: [clothRoomCrumb],
    any: found.items.length > 0,
    found: {
      caption: 'Purchases, newest first',
      quietCaption: true,
      columns: [
        { text: 'Came' },
        { text: 'Supplier' },
        { text: 'Paper' },
        { text: 'Order' },
        { text: `To pay, ${currency}`, figure: true },
      ],
      rows: found.items.map((one) => ({
        cells: [
          { text: dateInWords(one.boughtOn), href: purchaseUrl(one.id) },
          { text: suppliers.get(one.supplierId) ?? '' },
          { text: one.paperNumber },
          { text: one.orderNumber },
          { text: amountInWords(comesTo(one), locale) },
        ],
      })),
    },
    pager: {
      label: 'Purchases',
      ...(after ? { earlier: { text: 'From the newest', href: `/cloth-room/purchases?${query}` } } : {}),
      ...(found.next
        ? { later: { text: 'Further back', href: `/cloth-room/purchases?${query}after=${found.next}` } }
        : {}),
    },
  };
};

/** What the form of a purchase offers. */
export type PurchaseOffers = {
  readonly suppliers: readonly Supplier[];
  readonly materials: readonly Material[];
  readonly waiting: readonly AcceptedLine[];
  readonly identity: StudioIdentity;
};

/** The form for a delivery, line by line as the supplier's paper has it. */
export const purchaseFormPage = (
  form: FormModel,
  { suppliers, materials, waiting, identity }: PurchaseOffers,
): { template: string; words: PageWords } => {
  const filled = Object.keys(form.values).filter((name) => /^lines\.\d+\.materialId$/.test(name)).length;
  return {
    template: 'cloth-room/purchases/purchase-form',
    words: {
      title: 'A delivery',
      room: 'cloth-room',
      crumbs: [clothRoomCrumb, purchasesCrumb],
      form: { ...form, action: '/cloth-room/purchases' },
      leave: { text: 'Leave without saving', href: '/cloth-room/purchases' },
      missing: suppliers.length === 0 ? 'supplier' : materials.length === 0 ? 'material' : '',
      currency: identity.currency,
      suppliers: suppliers.map(({ id, name }) => ({ value: id, text: name })),
      grid: {
        caption: 'What came',
        columns: [
          {
            text: 'Material',
            options: materials.map(({ id, name, unit }) => ({ value: id, text: `${name} (${unit})` })),
          },
          { text: 'Quantity', figure: true },
          { text: 'Price of one', figure: true },
          { text: 'Width as measured' },
          { text: 'Dye lot' },
          { text: 'Flaws', wide: true },
          {
            text: 'Bought for',
            options: waiting.map((line) => ({
              value: line.id,
              text: `${line.commissionNumber} no. ${line.place}: ${line.name}`,
            })),
          },
        ],
        rows: gridRows('lines', LINE_FIELDS, filled, filled === 0 ? 5 : 3),
      },
    },
  };
};

/** Everything a purchase's page tells. */
export type PurchaseTold = {
  readonly purchase: Purchase;
  readonly supplier: Supplier;
  readonly lots: readonly Lot[];
  readonly materials: ReadonlyMap<string, Material>;
  readonly others: readonly Purchase[];
  readonly waiting: readonly AcceptedLine[];
  readonly quoted: ReadonlyMap<string, Decimal>;
  /** None while it is owed. */
  readonly paid: PaidOut | undefined;
  readonly identity: StudioIdentity;
};

/** One delivery: what it cost, what each line costs on the shelf, and who waited for it at which price. */
export const purchasePage = (told: PurchaseTold): PageWords => {
  const { purchase, supplier, identity } = told;
  const { locale } = identity;
  const money = (amount: Money): string => moneyInWords(amount, locale);
  const paper = purchase.paperNumber ? `, paper ${purchase.paperNumber}` : '';
  return {
    title: `Delivery of ${dateInWords(purchase.boughtOn)}`,
    room: 'cloth-room',
    crumbs: [clothRoomCrumb, purchasesCrumb],
    lead: `From ${supplier.name}${paper}: ${money(comesTo(purchase))} to pay.`,
    facts: [
      { label: 'Supplier', text: supplier.name, href: supplierUrl(supplier.id) },
      { label: 'Order', text: purchase.orderNumber },
      { label: 'Goods', text: money(purchase.goods) },
      { label: 'Freight', text: purchase.freight.isZero() ? '' : money(purchase.freight) },
      { label: 'Duty', text: purchase.duty.isZero() ? '' : money(purchase.duty) },
      {
        label: 'Tax',
        text: purchase.tax.isZero() ? '' : money(purchase.tax),
        note: purchase.taxRecoverable ? 'comes back: not a cost' : 'does not come back: shared',
      },
      { label: 'Shared by', text: purchase.sharedBy },
      { label: 'Paid', text: told.paid ? dateInWords(told.paid.paidOn) : 'not yet' },
      { label: 'Notes', text: purchase.notes },
    ].filter(({ text }) => text !== ''),
    lines: linesTable(told),
    anyOthers: told.others.length > 0,
    others: told.others.map(({ id, boughtOn, paperNumber }) => ({
      text: [dateInWords(boughtOn), paperNumber].filter(Boolean).join(', paper '),
      href: purchaseUrl(id),
    })),
  };
};

const linesTable = ({ lots, materials, waiting, quoted, identity }: PurchaseTold): object => {
  const { locale, currency } = identity;
  const rate = (value: Decimal): string => rateInWords(value, locale);
  return {
    caption: 'What came',
    columns: [
      { text: 'Lot' },
      { text: 'Material' },
      { text: 'Quantity', figure: true },
      { text: `Price of one, ${currency}`, figure: true },
      { text: 'On the shelf, one', figure: true },
      { text: 'Quoted', figure: true },
      { text: `Landed, ${currency}`, figure: true },
    ],
    rows: lots.map((lot) => {
      const material = materials.get(lot.materialId);
      const line = waiting.find(({ id }) => id === lot.lineId);
      const planned = lot.lineId ? (quoted.get(lot.lineId) ?? line?.unitCost) : undefined;
      const unitCost = lot.landed.toDecimal().div(lot.received);
      const over = planned && !planned.eq(unitCost) ? (unitCost.gt(planned) ? 'dearer' : 'cheaper') : '';
      return {
        cells: [
          { text: lot.code, href: lotUrl(lot.id) },
          { text: material?.name ?? '' },
          { text: material ? inWords(lot.received, material.unit, locale) : '' },
          { text: lot.unitPrice ? rate(lot.unitPrice) : '' },
          { text: rate(unitCost) },
          planned
            ? {
                text: rate(planned),
                note: [over && `${over} than quoted`, line?.commissionNumber].filter(Boolean).join(', '),
              }
            : { text: '' },
          { text: amountInWords(lot.landed, locale) },
        ],
      };
    }),
    foot: [
      {
        cells: [
          { text: 'Together' },
          ...Array.from({ length: 5 }, () => ({ text: '' })),
          {
            text: amountInWords(
              Money.sum(
                lots.map(({ landed }) => landed),
                currency,
              ),
              locale,
            ),
          },
        ],
      },
    ],
  };
};
