import { fileURLToPath } from 'node:url';
import type { Overruns, Studio } from '../../../domain/house/studio.js';
import { dateIn } from '../../../domain/kernel/calendar-date.js';
import { rateCard } from '../../../domain/rates/rate-card.js';
import type { RateWorkings } from '../../../domain/rates/rate-workings.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit } from '../../../storage/session.js';
import { readStarter } from '../../../storage/starter/read-starter.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { inCurrency } from '../change-currency.js';

const STARTER = fileURLToPath(new URL('../../../../data/starter', import.meta.url));

/** Opens the house with its starting types and operations; opened already, the answers are corrected. */
export const openHouse = async (
  unit: UnitOfWork,
  visit: Visit,
  house: Omit<Studio, 'version'>,
): Promise<Done<Studio>> => {
  const starter = await readStarter(STARTER);
  return unit.write(visit, async (writing) => {
    const before = await studioBook.maybe(writing);
    if (before) {
      const relabelled = await inCurrency(writing, before, house.identity.currency);
      const identity = { ...relabelled.identity, ...said(house.identity) };
      await studioBook.correct(writing, { ...relabelled, identity, tax: house.tax });
      writing.says('Answered the first questions again', 'house');
    } else {
      await studioBook.open(writing, house);
      await makingBook.bring(writing, starter);
      writing.says(`Opened ${house.identity.name}`, 'house');
    }
    return studioBook.the(writing);
  });
};

const said = ({
  name,
  maker,
  address,
  country,
  currency,
  locale,
  lengthUnit,
  clothUnit,
}: Studio['identity']) => ({
  name,
  maker,
  address,
  country,
  currency,
  locale,
  lengthUnit,
  clothUnit,
});

/** Keeps the first working hour, and whether plans are usually overrun; the first questions are then done. */
export const setFirstHour = (
  unit: UnitOfWork,
  visit: Visit,
  answers: { readonly workings: RateWorkings; readonly overruns: Overruns } | undefined,
): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const studio = await studioBook.the(writing);
    if (answers) {
      const from = dateIn(writing.at, studio.identity.zone);
      await ratesBook.setFrom(writing, rateCard(from, answers.workings));
    }
    await studioBook.correct(writing, {
      ...studio,
      overruns: answers?.overruns ?? studio.overruns,
      firstRunDone: writing.at,
    });
    writing.says(
      answers ? 'Worked out the first hourly rate' : 'Left the first questions for later',
      'house',
    );
  });
