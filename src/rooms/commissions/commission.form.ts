import { z } from 'zod';
import type { Commission } from '../../domain/commissions/commission.js';
import { MOST_GARMENTS } from '../../domain/commissions/commission.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { MAKES } from '../../domain/making/mode.js';
import type { Reading } from '../../storage/session.js';
import { date, line, oneOf, optionalDate, optionalLine, optionalLines } from '../../web/fields/fields.js';
import { typedAs } from '../../web/fields/kits.js';
import { closedUp } from '../../web/forms/closed-up.js';
import { parse, parseForm } from '../../web/forms/parse.js';
import type { Typed } from '../../web/forms/typed.js';
import { type DateField, readDate } from '../../web/words/dates.js';
import type { CommissionSaid, GarmentSaid } from './open-commission.js';
import { type Person, readPeople } from './typed-person.js';

const heads = {
  title: optionalLine(400),
  orderNumber: optionalLine(100),
  wantedBy: optionalDate(),
  notes: optionalLines(4000),
};

const someGarments = <T extends z.ZodType>(garment: T) =>
  z
    .array(garment)
    .min(1, 'Choose a garment type: a commission holds at least one garment.')
    .max(MOST_GARMENTS, `A commission holds at most ${MOST_GARMENTS} garments. Open a second one.`);

const typeId = () => line('Choose a garment type.', 60);

/** The fields of a garment on the form that opens a commission; an empty make is that of the line above. */
const GarmentLine = (dates: DateField) =>
  z.strictObject({
    type: typeId(),
    make: z.union([oneOf(MAKES), z.literal('')]).default(''),
    name: optionalLine(200),
    wearer: optionalLine(400),
    due: typedAs((typed) => readDate(typed, { ...dates, comes: true })),
  });

const HeadForm = z.strictObject({
  client: line('Who is it for? Write the client’s name.', 400),
  payer: optionalLine(400),
  ...heads,
});

/** The form that opens a commission with its garments. */
export const CommissionForm = (dates: DateField) =>
  HeadForm.extend({ garments: someGarments(GarmentLine(dates)) });

/** The form's rows closed up, so that errors name the lines that are shown again. */
export const tidyRows = (typed: Typed): Typed => closedUp(typed, 'garments', TELLING).typed;
const TELLING = ['type', 'name', 'wearer', 'due'];

/** Reads the form that opens a commission. @throws Invalid, Asked */
export const readOpening = async (
  reading: Reading,
  typed: Typed,
  dates: DateField,
): Promise<CommissionSaid & { garments: GarmentSaid[] }> => {
  const { rows, rest } = closedUp(typed, 'garments', TELLING);
  const top = Object.fromEntries(Object.entries(rest).filter(([name]) => !isCarried(name)));
  const said = atFirstLine(() => parse(CommissionForm(dates), { ...top, garments: rows }));
  const people = await readPeople(
    reading,
    {
      client: said.client,
      payer: said.payer,
      ...Object.fromEntries(said.garments.map(({ wearer }, place) => [`garments.${place}.wearer`, wearer])),
    },
    typed,
  );
  let make: GarmentSaid['make'] = 'hand-where-it-shows';
  return {
    ...headOf(said, people),
    garments: said.garments.map((garment, place) => {
      make = garment.make || make;
      return {
        typeId: garment.type,
        name: garment.name,
        make,
        wearer: people.get(`garments.${place}.wearer`),
        dueOn: garment.due,
        notes: '',
      };
    }),
  };
};

const isCarried = (name: string): boolean =>
  ['once', 'version', 'commit'].includes(name) || name.startsWith('confirm.');

/** No garment at all is said beside the first line's type. */
const atFirstLine = <T>(act: () => T): T => {
  try {
    return act();
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    throw new Invalid(
      error.message,
      error.fields.map(({ field, text }) => ({
        field: field === 'garments' ? 'garments.0.type' : field,
        text,
      })),
    );
  }
};

const headOf = (
  said: { title: string; orderNumber: string; notes: string; wantedBy?: string | undefined },
  people: ReadonlyMap<string, Person>,
): CommissionSaid => ({
  client: people.get('client')!,
  payer: people.get('payer'),
  title: said.title,
  orderNumber: said.orderNumber,
  wantedBy: said.wantedBy,
  notes: said.notes,
});

/** Reads the form that corrects a commission. @throws Invalid, Asked */
export const readCorrection = async (reading: Reading, typed: Typed): Promise<CommissionSaid> => {
  const said = parseForm(HeadForm, typed);
  return headOf(said, await readPeople(reading, { client: said.client, payer: said.payer }, typed));
};

const id = (missing: string) => line(missing, 60);

/** A garment as a program sends it. */
export const GarmentSent = z
  .strictObject({
    typeId: typeId(),
    make: oneOf(MAKES).default('hand-where-it-shows'),
    name: optionalLine(200),
    wearerId: optionalLine(60),
    dueOn: optionalDate(),
    notes: optionalLines(4000),
  })
  .transform(
    ({ wearerId, dueOn, ...said }): GarmentSaid => ({
      ...said,
      dueOn,
      wearer: wearerId ? { id: wearerId } : undefined,
    }),
  );

const headSent = {
  clientId: id('Name the client by id.'),
  payerId: optionalLine(60),
  ...heads,
  openedOn: date().optional(),
};

const saidOf = ({
  clientId,
  payerId,
  wantedBy,
  openedOn,
  ...rest
}: z.output<typeof HeadSent>): CommissionSaid & { openedOn: string | undefined } => ({
  ...rest,
  openedOn,
  wantedBy,
  client: { id: clientId },
  payer: payerId ? { id: payerId } : undefined,
});
const HeadSent = z.strictObject(headSent);

/** A commission as a program sends it, to be opened. */
export const CommissionSent = z
  .strictObject({ ...headSent, garments: someGarments(GarmentSent) })
  .transform(({ garments, ...head }) => ({ ...saidOf(head), garments }));

/** A commission as a program sends it, to be corrected. */
export const CorrectionSent = HeadSent.transform(saidOf);

/** A commission as its form's fields. */
export const typedCommission = (
  { title, orderNumber, wantedBy, notes }: Commission,
  client: string,
  payer: string,
): Record<string, string> => ({
  client,
  payer: payer === client ? '' : payer,
  title,
  orderNumber,
  wantedBy: wantedBy ?? '',
  notes,
});
