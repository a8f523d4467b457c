import type { Client } from '../../domain/clients/client.js';
import { type ClientWords, clientBook } from '../../storage/books/client-book.js';
import { keepingBook } from '../../storage/books/house/keeping-book.js';
import type { Visit } from '../../storage/session.js';
import type { Done, UnitOfWork } from '../../storage/unit-of-work.js';

export const addClient = (unit: UnitOfWork, visit: Visit, words: ClientWords): Promise<Done<Client>> =>
  unit.write(visit, async (writing) => {
    const client = await clientBook.add(writing, words);
    writing.says(`Added the client ${client.name}`, `client/${client.id}`);
    return client;
  });

/** @throws Stale when somebody corrected it meanwhile */
export const correctClient = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  words: ClientWords,
  seen?: number,
): Promise<Done<Client>> =>
  unit.write(visit, async (writing) => {
    await keepingBook.mustBeKept(writing, id);
    const client = await clientBook.correct(writing, id, words, seen);
    writing.says(`Corrected ${client.name}`, `client/${client.id}`);
    return client;
  });
