import { garmentStanding, isOpen } from '../../../domain/commissions/garment-mark.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { keepingBook } from '../../../storage/books/house/keeping-book.js';
import { clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { clothOfTheirs, garmentsTouching, notCollected } from '../../../storage/holding/still-here.js';
import type { Reading } from '../../../storage/session.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords } from '../../../web/words/dates.js';

/** One thing that stands in the way of erasing somebody, and where it is. */
export type InTheWay = { readonly text: string; readonly href: string };

/** What stands in the way of erasing a client: work under way, things of theirs that are here, and money. */
export const whyNotErased = async (reading: Reading, clientId: string): Promise<InTheWay[]> => {
  const { erasedOn } = await keepingBook.of(reading, clientId);
  if (erasedOn)
    return [{ text: `Erased already, on ${dateInWords(erasedOn)}.`, href: `/clients/${clientId}` }];
  return [
    ...(await openCommissions(reading, clientId)),
    ...(await thingsOfTheirs(reading, clientId)),
    ...(await moneyBetween(reading, clientId)),
  ];
};

const openCommissions = async (reading: Reading, clientId: string): Promise<InTheWay[]> => {
  const garments = await garmentsTouching(reading, clientId);
  const marks = await garmentMarkBook.ofGarments(
    reading,
    garments.map(({ id }) => id),
  );
  const open = new Map(
    garments.flatMap(({ id, commissionId, number }) =>
      isOpen(garmentStanding(marks.get(id) ?? [])) ? [[commissionId, number] as const] : [],
    ),
  );
  return [...open].map(([id, number]) => ({
    text: `Commission ${number} is not finished. Close or cancel its garments first.`,
    href: `/commissions/${id}`,
  }));
};

const thingsOfTheirs = async (reading: Reading, clientId: string): Promise<InTheWay[]> => {
  const { name } = await clientBook.one(reading, clientId);
  return [
    ...(await notCollected(reading, name)).map(({ id, number }) => ({
      text: `Counter ticket ${number} was not collected.`,
      href: `/bench/counter/${id}`,
    })),
    ...(await clothOfTheirs(reading, clientId)).map(({ code, materialId }) => ({
      text: `Cloth of theirs is still here: ${code}. Give it back, or write down what became of it.`,
      href: `/cloth-room/materials/${materialId}`,
    })),
  ];
};

const moneyBetween = async (reading: Reading, clientId: string): Promise<InTheWay[]> => {
  const { account } = await clientAccountBook.of(reading, clientId);
  const { locale } = (await studioBook.the(reading)).identity;
  const href = `/papers/accounts/${clientId}`;
  return [
    ...(account.owed.minor > 0 ? [{ text: `They owe ${moneyInWords(account.owed, locale)}.`, href }] : []),
    ...(account.credit.minor > 0
      ? [{ text: `The house holds ${moneyInWords(account.credit, locale)} of theirs.`, href }]
      : []),
  ];
};
