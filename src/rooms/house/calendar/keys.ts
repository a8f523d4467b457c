import { createHash, randomBytes } from 'node:crypto';
import { z } from 'zod';
import { NotFound } from '../../../domain/kernel/errors.js';
import { type CalendarKey, calendarKeyBook } from '../../../storage/books/fitting/calendar-key-book.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { line } from '../../../web/fields/fields.js';

export const KeyFields = z.strictObject({ name: line('Say where it will be read.', 100) });

const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');

/** The path of the calendar behind a secret. */
export const feedPath = (secret: string): string => `/calendar/${secret}.ics`;

/** Makes a secret address: 256 bits, of which only the hash is kept. */
export const makeKey = async (
  unit: UnitOfWork,
  visit: Visit,
  name: string,
): Promise<CalendarKey & { readonly path: string }> => {
  const secret = randomBytes(32).toString('base64url');
  const { value } = await unit.write(visit, async (writing) => {
    const key = await calendarKeyBook.add(writing, name, hashOf(secret));
    writing.says(`Made a calendar address for ${name}`, 'house');
    return key;
  });
  return { ...value, path: feedPath(secret) };
};

/** Revokes an address; a second time is none. @throws NotFound */
export const revokeKey = (unit: UnitOfWork, visit: Visit, id: string): Promise<Done<CalendarKey>> =>
  unit.write(visit, async (writing) => {
    const open = await calendarKeyBook.open(writing);
    if (!open.some((key) => key.id === id)) throw new NotFound('calendar address');
    const key = await calendarKeyBook.revoke(writing, id);
    writing.says(`Revoked the calendar address for ${key.name}`, 'house');
    return key;
  });

/** The key of a file's name in `/calendar/`. @throws NotFound, also where it was revoked */
export const keyOfFile = async (reading: Reading, file: string): Promise<CalendarKey> => {
  const secret = /^([A-Za-z0-9_-]{43})\.ics$/.exec(file)?.[1];
  const key = secret && (await calendarKeyBook.bySecret(reading, hashOf(secret)));
  if (!key) throw new NotFound('calendar');
  return key;
};
