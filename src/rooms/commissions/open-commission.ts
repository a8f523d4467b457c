import { type Commission, MOST_GARMENTS } from '../../domain/commissions/commission.js';
import type { Garment } from '../../domain/commissions/garment.js';
import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { Conflict, Invalid } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';
import type { GarmentType } from '../../domain/making/garment-type.js';
import type { Make } from '../../domain/making/mode.js';
import { startingPlan } from '../../domain/making/starting-plan.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import { garmentBook } from '../../storage/books/garment-book.js';
import { makingBook } from '../../storage/books/making-book.js';
import { planBook } from '../../storage/books/plan-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import type { Visit, Writing } from '../../storage/session.js';
import type { Done, UnitOfWork } from '../../storage/unit-of-work.js';
import { capitalised, countInWords, listInWords } from '../../web/words/counts.js';
import { type Person, personAdder } from './typed-person.js';

/** What is said about a commission. */
export type CommissionSaid = {
  readonly client: Person;
  readonly payer: Person | undefined;
  readonly title: string;
  readonly orderNumber: string;
  readonly wantedBy: CalendarDate | undefined;
  readonly notes: string;
};

/** What is said about a garment; without a wearer it is the client's. */
export type GarmentSaid = {
  readonly typeId: string;
  readonly name: string;
  readonly make: Make;
  readonly wearer: Person | undefined;
  readonly dueOn: CalendarDate | undefined;
  readonly notes: string;
};

export const commissionSubject = (id: string): string => `commission/${id}`;
export const garmentSubject = ({ commissionId, id }: Pick<Garment, 'commissionId' | 'id'>): string =>
  `commission/${commissionId}/garment/${id}`;

/** One act: the commission, its garments, and the plan each begins with. */
export const openCommission = (
  unit: UnitOfWork,
  visit: Visit,
  said: CommissionSaid & { readonly garments: readonly GarmentSaid[] },
  today: CalendarDate,
): Promise<Done<Commission>> =>
  unit.write(visit, async (writing) => {
    const { garments, client, payer, ...words } = said;
    const { pricing, identity } = await studioBook.the(writing);
    const idOf = personAdder(writing);
    const clientId = await idOf(client);
    const types = await typesOf(writing, garments);
    const names = garments.map((garment, place) => garment.name || (types[place]?.name ?? ''));
    const commission = await commissionBook.open(writing, {
      ...words,
      title: words.title || capitalised(listInWords(names)).slice(0, 400),
      clientId,
      payerId: payer ? await idOf(payer) : clientId,
      openedOn: today,
      pricing,
      discount: Money.zero(identity.currency),
    });
    for (const [place, garment] of garments.entries()) {
      const wearerId = garment.wearer ? await idOf(garment.wearer) : clientId;
      await putGarment(writing, commission.id, garment, types[place]!, wearerId);
    }
    const count = countInWords(garments.length, 'garment');
    writing.says(
      `Opened the commission ${commission.number} with ${count}`,
      commissionSubject(commission.id),
    );
    return commission;
  });

/** @throws Stale when somebody corrected it meanwhile */
export const correctCommission = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  { client, payer, ...words }: CommissionSaid,
  seen?: number,
): Promise<Done<Commission>> =>
  unit.write(visit, async (writing) => {
    const present = await commissionBook.one(writing, id);
    const idOf = personAdder(writing);
    const clientId = await idOf(client);
    const payerId = payer ? await idOf(payer) : clientId;
    const commission = await commissionBook.correct(
      writing,
      { ...present, ...words, title: words.title || present.title, clientId, payerId },
      seen,
    );
    writing.says(`Corrected the commission ${commission.number}`, commissionSubject(id));
    return commission;
  });

/** One garment more, with the plan it begins with. @throws Conflict when the commission is full */
export const addGarment = (
  unit: UnitOfWork,
  visit: Visit,
  commissionId: string,
  said: GarmentSaid,
): Promise<Done<Garment>> =>
  unit.write(visit, async (writing) => {
    const commission = await commissionBook.one(writing, commissionId);
    const present = await garmentBook.ofCommission(writing, commissionId);
    if (present.length >= MOST_GARMENTS)
      throw new Conflict(`A commission holds at most ${MOST_GARMENTS} garments. Open a second one.`, 'full');
    const [type] = await typesOf(writing, [said], 'type');
    const idOf = personAdder(writing);
    const wearerId = said.wearer ? await idOf(said.wearer) : commission.clientId;
    const garment = await putGarment(writing, commissionId, said, type!, wearerId);
    writing.says(`Added the ${garment.name} to ${commission.number}`, garmentSubject(garment));
    return garment;
  });

const typesOf = async (
  writing: Writing,
  garments: readonly GarmentSaid[],
  field?: string,
): Promise<GarmentType[]> => {
  const known = new Map((await makingBook.types(writing)).map((type) => [type.id, type]));
  return garments.map(({ typeId }, place) => {
    const type = known.get(typeId);
    if (!type) throw Invalid.field(field ?? `garments.${place}.type`, 'There is no such garment type.');
    return type;
  });
};

const putGarment = async (
  writing: Writing,
  commissionId: string,
  { wearer: _, ...said }: GarmentSaid,
  type: GarmentType,
  wearerId: string,
): Promise<Garment> => {
  const name = said.name || capitalised(type.name);
  const garment = await garmentBook.add(writing, {
    ...said,
    name,
    commissionId,
    wearerId,
    ownPrice: undefined,
  });
  const known = await makingBook.operations(writing, type.id);
  const { plan } = startingPlan(type, said.make, known, () => writing.newId());
  await planBook.keep(writing, garment.id, plan);
  return garment;
};
