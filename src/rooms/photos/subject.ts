import { type Client, isChildOn } from '../../domain/clients/client.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { clientBook } from '../../storage/books/client-book.js';
import { materialBook } from '../../storage/books/cloth-room/material-book.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import { fittingBook } from '../../storage/books/fitting/fitting-book.js';
import { garmentBook } from '../../storage/books/garment-book.js';
import type { Reading } from '../../storage/session.js';
import { subjectUrl } from '../../web/subject-url.js';
import { capitalised } from '../../web/words/counts.js';
import { dateInWords } from '../../web/words/dates.js';

/** What photographs are of: its path, its name, where it stands, and who may be on them. */
export type Subject = {
  readonly about: string;
  readonly name: string;
  readonly url: string;
  /** Nobody is on a photograph of a material. */
  readonly people: readonly Client[];
};

/** What a path names, where it can be photographed. @throws NotFound */
export const subjectOf = async (reading: Reading, about: string): Promise<Subject> => {
  const [kind = '', id = '', part = '', partId = '', ...more] = about.split('/');
  const said = (name: string, people: readonly Client[]): Subject => ({
    about,
    name,
    url: subjectUrl(about) ?? '/',
    people,
  });
  if (more.length > 0 || (kind !== 'commission' && part !== '')) throw new NotFound('thing to photograph');
  if (kind === 'client') {
    const client = await clientBook.one(reading, id);
    return said(client.name, [client]);
  }
  if (kind === 'material') return said((await materialBook.one(reading, id)).name, []);
  if (kind !== 'commission' || partId === '') throw new NotFound('thing to photograph');
  const { number } = await commissionBook.one(reading, id);
  if (part === 'garment') {
    const garment = await garmentBook.one(reading, partId);
    if (garment.commissionId !== id) throw new NotFound('garment in this commission');
    return said(`${capitalised(garment.name)}, ${number}`, [await clientBook.one(reading, garment.wearerId)]);
  }
  if (part !== 'fitting') throw new NotFound('thing to photograph');
  const fitting = await fittingBook.one(reading, partId);
  if (fitting.commissionId !== id) throw new NotFound('fitting in this commission');
  const wearers = new Map<string, Client>();
  for (const { id: garmentId, wearerId } of await garmentBook.ofCommission(reading, id))
    if (fitting.garmentIds.includes(garmentId))
      wearers.set(wearerId, await clientBook.one(reading, wearerId));
  return said(`Fitting of ${dateInWords(fitting.on)}, ${number}`, [...wearers.values()]);
};

/** Is one of them a child on this day? */
export const isOfChild = ({ people }: Subject, on: string): boolean =>
  people.some((one) => isChildOn(one, on));
