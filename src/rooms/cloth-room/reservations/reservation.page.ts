import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { Lot } from '../../../domain/stock/lot.js';
import type { Material } from '../../../domain/stock/material.js';
import type { OpenPromise } from '../../../domain/stock/promised.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { ServedGarment } from '../../../storage/books/cloth-room/served-garments.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { clothRoomCrumb, materialUrl } from '../cloth-room.page.js';
import { inWords, unitInWords } from '../stock-fields.js';

type Offers = {
  readonly material: Material;
  readonly lots: readonly Lot[];
  readonly garments: readonly ServedGarment[];
  readonly identity: StudioIdentity;
};

export const garmentInWords = (one: ServedGarment): string =>
  `${one.commissionNumber} no. ${one.place}, ${one.name}`;

/** The form that promises a material to a garment. */
export const reservePage = (
  form: FormModel,
  { material, lots, garments, identity }: Offers,
): { template: string; words: PageWords } => ({
  template: 'cloth-room/movements/promise-form',
  words: {
    title: `Promise ${material.name}`,
    room: 'cloth-room',
    crumbs: [clothRoomCrumb, { text: material.name, href: materialUrl(material.id) }],
    form: { ...form, action: `${materialUrl(material.id)}/promise` },
    unit: unitInWords(material.unit),
    pieces: lots
      .filter(({ left, origin }) => left.gt(0) && origin !== 'custody')
      .map((lot) => ({
        value: lot.id,
        text: [lot.code, inWords(lot.left, material.unit, identity.locale), lot.dyeLot]
          .filter(Boolean)
          .join(', '),
      })),
    garments: garments.map((one) => ({ value: one.id, text: garmentInWords(one) })),
    leave: { text: 'Leave it free', href: materialUrl(material.id) },
  },
});

/** What is promised of a material, with a way to let it go. */
export const promisesTable = (
  promises: readonly OpenPromise[],
  garments: ReadonlyMap<string, ServedGarment>,
  { unit }: Material,
  { locale }: StudioIdentity,
): object => ({
  caption: 'Promised',
  columns: [{ text: 'Garment' }, { text: 'Still to issue', figure: true }, { text: 'Note' }, { text: '' }],
  rows: promises.map((promise) => {
    const garment = garments.get(promise.garmentId);
    return {
      cells: [
        garment
          ? {
              text: garmentInWords(garment),
              href: `/commissions/${garment.commissionId}/garments/${garment.id}`,
            }
          : { text: 'a garment that is gone' },
        { text: inWords(promise.open, unit, locale) },
        { text: promise.note },
        {
          press: {
            action: `/cloth-room/reservations/${promise.id}/release`,
            text: 'Let it go',
            label: `Let go of what is promised to ${garment ? garmentInWords(garment) : 'a garment that is gone'}`,
            once: freshForm('').once,
          },
        },
      ],
    };
  }),
});
