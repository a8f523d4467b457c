import type { StudioIdentity } from '../../../domain/house/studio.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { ENTRY_WORDS, MAY_COME_BACK, type StockEntry } from '../../../domain/stock/entry.js';
import type { Lot } from '../../../domain/stock/lot.js';
import type { Material } from '../../../domain/stock/material.js';
import type { Taken } from '../../../domain/stock/stock-lot.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { ServedGarment } from '../../../storage/books/cloth-room/served-garments.js';
import { type SupplierCredit, sentBackSubject } from '../../../storage/books/money-out/supplier-credits.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords, instantInWords } from '../../../web/words/dates.js';
import { clothRoomCrumb, lotUrl, materialUrl } from '../cloth-room.page.js';
import { originInWords } from '../lots/lot-words.js';
import { entriesTable } from '../materials/material.page.js';
import { inWords, unitInWords } from '../stock-fields.js';

export const movementUrl = (id: string): string => `/cloth-room/movements/${id}`;

/** What the form for taking something out offers. */
export type TakeOffers = {
  readonly material: Material;
  readonly lots: readonly Lot[];
  readonly garments: readonly ServedGarment[];
  readonly today: string;
  readonly identity: StudioIdentity;
};

/** Which pieces may be named: all where the very piece counts, else those that stand apart. */
const namable = ({ material, lots }: TakeOffers): Lot[] =>
  lots.filter(
    ({ left, origin }) => left.gt(0) && (material.method !== 'first-in-first-out' || origin !== 'bought'),
  );

/** The form that issues a material to a garment, or puts it down as wasted. */
export const takePage = (form: FormModel, offers: TakeOffers): { template: string; words: PageWords } => {
  const { material, lots, garments, identity } = offers;
  const there = lots.reduce((sum, { left }) => sum.plus(left), new Decimal(0));
  const mustName = material.method === 'lot';
  return {
    template: 'cloth-room/movements/take',
    words: {
      title: `Take ${material.name}`,
      room: 'cloth-room',
      crumbs: [clothRoomCrumb, { text: material.name, href: materialUrl(material.id) }],
      form: { ...form, action: `${materialUrl(material.id)}/take` },
      lead: `${inWords(there, material.unit, identity.locale)} are here by the book.`,
      measure: `/cloth-room/stocktake?material=${material.id}`,
      unit: unitInWords(material.unit),
      pieces: namable(offers).map((lot) => ({
        value: lot.id,
        text: [
          lot.code,
          inWords(lot.left, material.unit, identity.locale),
          lot.width.shown,
          lot.dyeLot,
          originInWords(lot),
        ]
          .filter(Boolean)
          .join(', '),
      })),
      anyPieces: namable(offers).length > 0,
      firstPiece: mustName ? 'Choose the piece' : 'Any: the cost goes by the material',
      garments: garments.map((one) => ({
        value: one.id,
        text: `${one.commissionNumber} no. ${one.place}, ${one.name}`,
      })),
      leave: { text: 'Leave it there', href: materialUrl(material.id) },
    },
  };
};

export const freshTake = (today: string, asked: { lot: string; garment: string; kind: string }): FormModel =>
  freshForm('', {
    kind: asked.kind === 'waste' ? 'waste' : 'issue',
    lot: asked.lot,
    garment: asked.garment,
    on: today,
  });

/** Everything a movement's page tells. */
export type MovementTold = {
  readonly entry: StockEntry;
  readonly material: Material;
  readonly lots: ReadonlyMap<string, Lot>;
  readonly about: readonly StockEntry[];
  readonly stillOut: readonly Taken[];
  /** What the supplier owes for it, where it went back. */
  readonly credit: SupplierCredit | undefined;
  readonly today: string;
  readonly identity: StudioIdentity;
};

const creditInWords = ({ amount, isReversed, isSettled }: SupplierCredit, locale: string): string => {
  if (isReversed || amount.isZero()) return 'none';
  return `${moneyInWords(amount, locale)}, ${isSettled ? 'settled' : 'not settled yet'}`;
};

/** Which of a movement's forms was refused, with what was typed. */
export type Again = { readonly which: 'return' | 'offcut' | 'reverse'; readonly form: FormModel };

/** One movement, and what can still be done about it. */
export const movementPage = (told: MovementTold, again?: Again): { template: string; words: PageWords } => {
  const { entry, material, lots, identity, today } = told;
  const { locale, zone } = identity;
  const url = movementUrl(entry.id);
  const out = told.stillOut.reduce((sum, { quantity }) => sum.plus(quantity), new Decimal(0));
  const mayReturn = MAY_COME_BACK.includes(entry.kind) && out.gt(0);
  const formOf = (which: Again['which']): FormModel => {
    const model = again?.which === which ? again.form : freshForm('', { on: today });
    return { ...model, action: `${url}/${which}`, idPrefix: `${which}-` };
  };
  const refused = again ? formOf(again.which) : undefined;
  return {
    template: 'cloth-room/movements/movement',
    words: {
      title: `${ENTRY_WORDS[entry.kind]}: ${material.name}`,
      room: 'cloth-room',
      crumbs: [clothRoomCrumb, { text: material.name, href: materialUrl(material.id) }],
      ...(refused ? { form: refused } : {}),
      facts: [
        { label: 'Quantity', text: inWords(entry.quantity.abs(), material.unit, locale) },
        {
          label: 'Cost',
          text: moneyInWords(entry.cost.isNegative() ? entry.cost.negated() : entry.cost, locale),
        },
        { label: 'Day', text: dateInWords(entry.on) },
        { label: 'Put down', text: `${instantInWords(entry.at, zone)}, ${entry.who}` },
        entry.commissionId
          ? { label: 'For', text: entry.garmentName, href: `/commissions/${entry.commissionId}/materials` }
          : { label: '', text: '' },
        { label: 'Reason', text: entry.reason },
        ...(entry.of ? [{ label: 'About', text: 'an earlier movement', href: movementUrl(entry.of) }] : []),
        ...(told.credit
          ? [
              {
                label: 'Supplier’s credit',
                text: creditInWords(told.credit, locale),
                ...(told.credit.isReversed || told.credit.amount.isZero()
                  ? {}
                  : { href: `/papers/money-out/pay?about=${encodeURIComponent(sentBackSubject(entry.id))}` }),
              },
            ]
          : []),
        ...(entry.purchaseId
          ? [{ label: 'Delivery', text: 'as it came', href: `/cloth-room/purchases/${entry.purchaseId}` }]
          : []),
      ].filter(({ text }) => text !== ''),
      pieces: [...new Set(entry.parts.map(({ lotId }) => lotId))].flatMap((id) => {
        const lot = lots.get(id);
        return lot ? [{ text: lot.code, href: lotUrl(id) }] : [];
      }),
      unit: unitInWords(material.unit),
      mayReturn,
      isLength: material.unit === 'm' || material.unit === 'yd',
      out: mayReturn ? `${inWords(out, material.unit, locale)} of it are still out.` : '',
      returning: formOf('return'),
      offcut: formOf('offcut'),
      mayReverse: entry.kind !== 'reversal' && (mayReturn || !MAY_COME_BACK.includes(entry.kind)),
      reverse: formOf('reverse'),
      anyAbout: told.about.length > 0,
      about: entriesTable(told.about, material, identity),
    },
  };
};
