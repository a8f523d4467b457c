import { randomUUID } from 'node:crypto';
import { nameOnCard, type Person, ROLE_WORDS, ROLES, type Role } from '../../../domain/bench/person.js';
import { labourPerHour } from '../../../domain/rates/rate-card.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { personBook } from '../../../storage/books/bench/person-book.js';
import { type PairedPhone, phoneBook } from '../../../storage/books/house/phone-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading } from '../../../storage/session.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { instantInWords } from '../../../web/words/dates.js';

export const PEOPLE_URL = '/house/people';
export const personUrl = (id: string): string => `${PEOPLE_URL}/${id}`;

const HOUSE = { text: 'House', href: '/house' };
const PEOPLE = { text: 'People', href: PEOPLE_URL };

const ROLE_SAYS: Readonly<Record<Role, string>> = {
  owner: 'does and sees everything',
  maker: 'works at the bench: the clock, time, plans to work by, fittings',
  bookkeeper: 'keeps papers, payments and money out',
};

const seesInWords = ({ role, seesPrices }: Person): string => {
  if (role === 'owner') return 'everything';
  if (role === 'bookkeeper') return 'papers, prices and addresses';
  return seesPrices ? 'prices and addresses too' : 'no prices, no addresses';
};

/** What a person's hour costs on the newest card: their own line, or the workroom's first. */
const hourInWords = async (
  reading: Reading,
): Promise<(person: Person) => { text: string; note?: string }> => {
  const card = (await ratesBook.all(reading))[0];
  const { locale } = (await studioBook.the(reading)).identity;
  return (person) => {
    if (!card) return { text: 'no rates yet' };
    const name = nameOnCard(
      person.name,
      card.workings.people.map((one) => one.name),
    );
    const terms = card.workings.people.find((one) => one.name === name);
    if (!terms) return { text: 'no rates yet' };
    const text = moneyInWords(labourPerHour(terms), locale);
    return terms.name.trim().toLowerCase() === person.name.trim().toLowerCase()
      ? { text }
      : { text, note: `as ${terms.name}` };
  };
};

/** Everybody who works here, and the form that adds somebody. */
export const peoplePage = async (reading: Reading, form?: FormModel): Promise<PageWords> => {
  const people = await personBook.all(reading);
  const hour = await hourInWords(reading);
  const phones = await phoneBook.all(reading);
  const here = people.filter(({ left }) => !left);
  const gone = people.filter(({ left }) => left);
  return {
    title: 'People',
    room: 'house',
    crumbs: [HOUSE],
    ...(form ? { form } : {}),
    people: {
      caption: 'Who works here',
      columns: [
        { text: 'Name' },
        { text: 'Role' },
        { text: 'Sees' },
        { text: 'An hour', figure: true },
        { text: 'Phones' },
      ],
      rows: here.map((person) => ({
        cells: [
          { text: person.name, href: personUrl(person.id) },
          { text: ROLE_WORDS[person.role] },
          { text: seesInWords(person) },
          { ...hour(person), figure: true },
          { text: String(phones.filter(({ accountId }) => accountId === person.accountId).length) },
        ],
      })),
    },
    gone: gone.length > 0 ? `Left the workroom: ${gone.map(({ name }) => name).join(', ')}.` : '',
    addForm: form ?? freshForm(PEOPLE_URL, { role: 'maker' }),
    roles: ROLES.map((role) => ({ value: role, text: ROLE_WORDS[role], hint: ROLE_SAYS[role] })),
  };
};

/** One person: what they may do, and their phones. */
export const personPage = async (reading: Reading, id: string, form?: FormModel): Promise<PageWords> => {
  const person = await personBook.one(reading, id);
  const { zone } = (await studioBook.the(reading)).identity;
  const phones = (await phoneBook.all(reading)).filter(({ accountId }) => accountId === person.accountId);
  return {
    title: person.name,
    room: 'house',
    crumbs: [HOUSE, PEOPLE],
    ...(form ? { form } : {}),
    personForm: form ?? personForm(person),
    roles: ROLES.map((role) => ({ value: role, text: ROLE_WORDS[role], hint: ROLE_SAYS[role] })),
    left: person.left,
    canPair: !person.left && person.accountId !== undefined,
    pair: { action: `${personUrl(id)}/phones`, text: 'Lay a code ready', once: randomUUID() },
    letGo: {
      action: `${personUrl(id)}/let-go`,
      text: 'They left the workroom',
      once: randomUUID(),
      values: { version: String(person.version) },
    },
    phones: phones.length === 0 ? '' : phonesTable(phones, person, zone),
  };
};

const personForm = (person: Person): FormModel => ({
  ...freshForm(personUrl(person.id), {
    name: person.name,
    role: person.role,
    seesPrices: person.seesPrices ? 'yes' : '',
    passphrase: '',
  }),
  version: String(person.version),
});

const phonesTable = (phones: readonly PairedPhone[], person: Person, zone: string): object => ({
  caption: `Phones of ${person.name}`,
  columns: [{ text: 'Phone' }, { text: 'Paired' }, { text: 'Last used' }, { text: '' }],
  rows: phones.map((phone) => ({
    cells: [
      { text: phone.name },
      { text: instantInWords(phone.pairedAt, zone) },
      { text: instantInWords(phone.seenAt, zone) },
      {
        press: {
          action: `${personUrl(person.id)}/phones/${phone.id}/revoke`,
          text: 'Let it in no more',
          label: `Let ${phone.name} in no more`,
          once: randomUUID(),
        },
      },
    ],
  })),
});

/** A code to type on the phone, shown once. */
export const codePage = (person: Person, code: string): PageWords => ({
  title: `A code for a phone of ${person.name}`,
  room: 'house',
  crumbs: [HOUSE, PEOPLE, { text: person.name, href: personUrl(person.id) }],
  code,
  back: personUrl(person.id),
});
