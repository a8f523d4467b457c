import { z } from 'zod';
import type { Garment } from '../../../domain/commissions/garment.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import type { Money } from '../../../domain/kernel/money.js';
import { MAKES } from '../../../domain/making/mode.js';
import type { Reading } from '../../../storage/session.js';
import { line, oneOf, optionalDate, optionalLine, optionalLines, yesNo } from '../../../web/fields/fields.js';
import { sentKit, typedKit } from '../../../web/fields/kits.js';
import { Asked } from '../../../web/forms/form.js';
import { isConfirmed, parseForm } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { type MoneyManner, moneyInWords } from '../../../web/words/amounts.js';
import type { GarmentSaid } from '../open-commission.js';
import { readPeople } from '../typed-person.js';

const GarmentForm = z.strictObject({
  type: line('Choose a garment type.', 60),
  make: oneOf(MAKES, 'Choose how it is to be made.'),
  name: optionalLine(200),
  wearer: optionalLine(400),
  dueOn: optionalDate(),
  notes: optionalLines(4000),
});

/** Reads the form of one garment. @throws Invalid, Asked */
export const readGarment = async (reading: Reading, typed: Typed): Promise<GarmentSaid> => {
  const { type, wearer, dueOn, ...said } = parseForm(GarmentForm, typed);
  const people = await readPeople(reading, { wearer }, typed);
  return { ...said, typeId: type, dueOn, wearer: people.get('wearer') };
};

/** A garment as its form's fields. */
export const typedGarment = (garment: Garment, wearer: string): Record<string, string> => ({
  type: garment.typeId,
  make: garment.make,
  name: garment.name,
  wearer,
  dueOn: garment.dueOn ?? '',
  notes: garment.notes,
});

const GIVEN_AWAY = 'A price of nought gives the garment away.';

/** Reads the price set by hand; none when the field is empty. @throws Asked at nought, until that was answered with yes */
export const readOwnPrice = (typed: Typed, manner: MoneyManner): Money | undefined => {
  const { ownPrice } = parseForm(z.strictObject({ ownPrice: typedKit(manner).optionalMoney() }), typed);
  if (ownPrice?.isZero() && !isConfirmed(typed, 'confirm.ownPrice'))
    throw new Asked([
      {
        field: 'ownPrice',
        text: `${GIVEN_AWAY} Is ${moneyInWords(ownPrice, manner.locale)} right?`,
        confirmName: 'confirm.ownPrice',
      },
    ]);
  return ownPrice;
};

/** The price set by hand, as a program sends it; nought only together with `givenAway`. */
export const OwnPriceSent = (currency: string) =>
  z
    .strictObject({
      ownPrice: z.union([sentKit(currency).money('Send an amount such as "310.00".'), z.null()]),
      givenAway: yesNo(),
    })
    .transform(({ ownPrice, givenAway }) => {
      if (ownPrice?.isZero() && !givenAway)
        throw Invalid.field('ownPrice', `${GIVEN_AWAY} Send "givenAway": true if that is meant.`);
      return ownPrice ?? undefined;
    });
