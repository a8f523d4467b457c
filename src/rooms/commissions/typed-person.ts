import { type Client, foldForSearch } from '../../domain/clients/client.js';
import { type FieldTrouble, Invalid } from '../../domain/kernel/errors.js';
import type { FieldQuestion } from '../../printing/templates/page-model.js';
import { clientBook } from '../../storage/books/client-book.js';
import { keepingBook } from '../../storage/books/house/keeping-book.js';
import type { Reading, Writing } from '../../storage/session.js';
import { Asked } from '../../web/forms/form.js';
import { isConfirmed } from '../../web/forms/parse.js';
import type { Typed } from '../../web/forms/typed.js';

/** Somebody in the book, or somebody to be added by name on the way. */
export type Person = { readonly id: string } | { readonly newName: string };

/** How many clients a field offers by name while typing. */
const MOST_OFFERED = 300;

/** A client as a field offers and takes it back: the number tells apart two of one name. */
export const personText = ({ name, code }: Pick<Client, 'name' | 'code'>): string => `${name}, ${code}`;

/** The clients a field offers while typing. */
export const offeredPeople = async (reading: Reading): Promise<string[]> =>
  (await clientBook.find(reading, '', MOST_OFFERED)).items.map(personText);

/** The client meant, where the text is a number, the whole name, or part of only one name. */
const meant = async (reading: Reading, text: string): Promise<Client | readonly Client[]> => {
  const code = /(?:^|[\s,])(C-\d{4,})$/i.exec(text)?.[1];
  const { items } = await clientBook.find(reading, code ?? text, 12);
  if (code) {
    const coded = items.find((one) => one.code.toLowerCase() === code.toLowerCase());
    if (coded) return coded;
  }
  const exact = items.filter(({ name }) => foldForSearch(name) === foldForSearch(text));
  if (exact.length === 1) return exact[0]!;
  if (exact.length > 1) return exact;
  return items.length === 1 ? items[0]! : items;
};

/**
 * Finds the people named in fields of a form. Somebody unknown is added by name once that was answered with yes.
 *
 * @param fields the field's name and what was typed in it; blank ones are left out of the answer
 * @throws Invalid where several may be meant; Asked where somebody would be new
 */
export const readPeople = async (
  reading: Reading,
  fields: Readonly<Record<string, string>>,
  typed: Typed,
): Promise<ReadonlyMap<string, Person>> => {
  const people = new Map<string, Person>();
  const known = new Map<string, Person>();
  const [troubles, questions]: [FieldTrouble[], FieldQuestion[]] = [[], []];
  for (const [field, said] of Object.entries(fields)) {
    const text = said.replace(/\s+/g, ' ').trim();
    if (text === '') continue;
    const key = foldForSearch(text);
    const person = known.get(key) ?? (await read(reading, field, text, typed, troubles, questions));
    if (!person) continue;
    known.set(key, person);
    people.set(field, person);
  }
  if (troubles.length > 0) throw new Invalid(troubles[0]!.text, troubles);
  if (questions.length > 0) throw new Asked(questions);
  return people;
};

const read = async (
  reading: Reading,
  field: string,
  text: string,
  typed: Typed,
  troubles: FieldTrouble[],
  questions: FieldQuestion[],
): Promise<Person | undefined> => {
  if (text.length > 400) {
    troubles.push({ field, text: 'At most 400 characters.' });
    return undefined;
  }
  const found = await meant(reading, text);
  if ('id' in found) return { id: found.id };
  if (found.length > 0 && !isConfirmed(typed, `confirm.${field}`)) {
    const names = found.slice(0, 6).map(personText).join('; ');
    troubles.push({ field, text: `Several people may be meant: ${names}. Write the name with its number.` });
    return undefined;
  }
  if (!isConfirmed(typed, `confirm.${field}`))
    questions.push({
      field,
      text: `Nobody called “${text}” is in the book yet. Add as a new client, by name only?`,
      confirmName: `confirm.${field}`,
    });
  return { newName: text };
};

/** The id of a person, who is added now where new; the same new name is added once in one act. */
export const personAdder = (writing: Writing): ((person: Person) => Promise<string>) => {
  const added = new Map<string, string>();
  return async (person) => {
    if ('id' in person) {
      await keepingBook.mustBeKept(writing, person.id);
      return (await clientBook.one(writing, person.id)).id;
    }
    const earlier = added.get(foldForSearch(person.newName));
    if (earlier) return earlier;
    const { id } = await clientBook.add(writing, { ...nothingSaid, name: person.newName });
    added.set(foldForSearch(person.newName), id);
    return id;
  };
};

const nothingSaid = {
  address: '',
  country: '',
  email: '',
  phone: '',
  taxNumber: '',
  notes: '',
  isChild: false,
  birthDate: undefined,
  guardian: '',
};
