import { ENQUIRY_WORDS, type Enquiry, type EnquiryState } from '../../../domain/clients/enquiry.js';
import { dateIn } from '../../../domain/kernel/calendar-date.js';
import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { startingPlan } from '../../../domain/making/starting-plan.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { enquiryBook, enquirySubject } from '../../../storage/books/counter/enquiry-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { capitalised } from '../../../web/words/counts.js';
import type { EnquirySaid } from './enquiry.form.js';

/** Days left out are none. */
const daysOf = ({ wantedBy, nextOn }: EnquirySaid) => ({ wantedBy, nextOn });

export const addEnquiry = (unit: UnitOfWork, visit: Visit, said: EnquirySaid): Promise<Done<Enquiry>> =>
  unit.write(visit, async (writing) => {
    const fresh = { state: 'waiting', clientId: undefined, commissionId: undefined } as const;
    const enquiry = await enquiryBook.add(writing, { ...said, ...daysOf(said), ...fresh });
    writing.says(`Put ${enquiry.name} on the waiting list`, enquirySubject(enquiry.id));
    return enquiry;
  });

/** @throws Stale when somebody changed it meanwhile */
export const correctEnquiry = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: EnquirySaid,
  seen?: number,
): Promise<Done<Enquiry>> =>
  unit.write(visit, async (writing) => {
    const kept = await enquiryBook.one(writing, id);
    const enquiry = await enquiryBook.correct(writing, { ...kept, ...said, ...daysOf(said) }, seen);
    writing.says(`Corrected the enquiry of ${enquiry.name}`, enquirySubject(id));
    return enquiry;
  });

/** Says where an enquiry stands. @throws Conflict once it became a commission */
export const moveEnquiry = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: { readonly state: EnquiryState; readonly nextOn: string | undefined },
  seen?: number,
): Promise<Done<Enquiry>> =>
  unit.write(visit, async (writing) => {
    const kept = await enquiryBook.one(writing, id);
    if (kept.state === 'commissioned')
      throw new Conflict('This became a commission; what comes next is said there.', 'commissioned');
    const isOver = said.state === 'declined' || said.state === 'lapsed';
    const nextOn = isOver ? undefined : (said.nextOn ?? kept.nextOn);
    const enquiry = await enquiryBook.correct(writing, { ...kept, state: said.state, nextOn }, seen);
    writing.says(`${enquiry.name}: ${ENQUIRY_WORDS[enquiry.state]}`, enquirySubject(id));
    return enquiry;
  });

/** Makes a client of who asked. @throws Conflict when they are one already */
export const becomeClient = (unit: UnitOfWork, visit: Visit, id: string): Promise<Done<Enquiry>> =>
  unit.write(visit, async (writing) => {
    const kept = await enquiryBook.one(writing, id);
    if (kept.clientId) throw new Conflict('They are a client already.', 'client-already');
    const isEmail = /^\S+@\S+$/.test(kept.reachedAt);
    const client = await clientBook.add(writing, {
      name: kept.name,
      address: '',
      country: '',
      email: isEmail ? kept.reachedAt : '',
      phone: !isEmail && kept.reachedAt.length <= 60 ? kept.reachedAt : '',
      taxNumber: '',
      notes: !isEmail && kept.reachedAt.length > 60 ? kept.reachedAt : '',
      isChild: false,
      birthDate: undefined,
      guardian: '',
    });
    const enquiry = await enquiryBook.correct(writing, { ...kept, clientId: client.id });
    writing.says(`Added ${client.name}, who had asked, as a client`, enquirySubject(id));
    return enquiry;
  });

/** Begins the commission with its first garment and the plan it begins with. @throws Conflict, Invalid */
export const beginCommission = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  typeId: string,
): Promise<Done<Enquiry>> =>
  unit.write(visit, async (writing) => {
    const kept = await enquiryBook.one(writing, id);
    if (kept.commissionId) throw new Conflict('The commission was begun already.', 'commissioned');
    if (!kept.clientId) throw new Conflict('Make them a client first.', 'no-client');
    const type = (await makingBook.types(writing)).find((one) => one.id === typeId);
    if (!type) throw Invalid.field('type', 'There is no such garment type.');
    const { pricing, identity } = await studioBook.the(writing);
    const commission = await commissionBook.open(writing, {
      clientId: kept.clientId,
      payerId: kept.clientId,
      title: kept.what,
      orderNumber: '',
      openedOn: dateIn(writing.at, identity.zone),
      wantedBy: kept.wantedBy,
      notes: kept.notes,
      pricing,
      discount: Money.zero(identity.currency),
    });
    const make = 'hand-where-it-shows';
    const garment = await garmentBook.add(writing, {
      commissionId: commission.id,
      name: capitalised(type.name),
      typeId,
      make,
      wearerId: kept.clientId,
      dueOn: kept.wantedBy,
      notes: '',
      ownPrice: undefined,
    });
    const known = await makingBook.operations(writing, typeId);
    await planBook.keep(writing, garment.id, startingPlan(type, make, known, () => writing.newId()).plan);
    const enquiry = await enquiryBook.correct(writing, {
      ...kept,
      commissionId: commission.id,
      state: 'commissioned',
      nextOn: undefined,
    });
    writing.says(`Began ${commission.number} from what ${kept.name} had asked for`, enquirySubject(id));
    return enquiry;
  });
