import { correctionInWords } from '../../../domain/fitting/correction.js';
import { FITTING_KIND_WORDS } from '../../../domain/fitting/fitting.js';
import { addDays, type CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import { planMinutes } from '../../../domain/making/plan-minutes.js';
import type { Account } from '../../../domain/papers/settlement/account.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { capitalised, listInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { type FittingAhead, fittingsAhead, type GarmentAhead } from './fittings-ahead.js';

/** Who looks: may they see what is owed, and open an address? */
export type Looker = { readonly seesPrices: boolean; readonly may: (url: string) => boolean };

/** One fitting ahead in words. */
export type FittingAheadWords = {
  readonly time: string;
  readonly what: string;
  readonly href: string;
  readonly who: string;
  readonly garments: readonly { readonly name: string; readonly baste: string; readonly last: string }[];
  readonly balance: string;
  readonly notes: string;
};

/** The fittings of one day in words; drawn by `bench/fittings-ahead`. */
export type FittingsAheadWords = {
  readonly caption: string;
  readonly any: boolean;
  readonly fittings: readonly FittingAheadWords[];
};

/** Today's fittings: who comes, and what is not ready yet. */
export const todaysFittings = async (
  reading: Reading,
  clock: Clock,
  looker: Looker,
): Promise<FittingsAheadWords> => drawn(reading, clock, looker, 0, 'Fittings today');

/** Tomorrow's fittings: what must be basted for them, what the last ones showed, what is owed. */
export const tomorrowsFittings = async (
  reading: Reading,
  clock: Clock,
  looker: Looker,
): Promise<FittingsAheadWords> => drawn(reading, clock, looker, 1, 'Fittings tomorrow');

const drawn = async (
  reading: Reading,
  clock: Clock,
  looker: Looker,
  days: number,
  caption: string,
): Promise<FittingsAheadWords> => {
  const { identity } = await studioBook.the(reading);
  const day: CalendarDate = addDays(todayIn(clock, identity.zone), days);
  const ahead = await fittingsAhead(reading, day);
  return {
    caption,
    any: ahead.length > 0,
    fittings: ahead.map((one) => aheadInWords(one, looker, identity.locale)),
  };
};

const aheadInWords = (
  { fitting, number, wearers, garments, account }: FittingAhead,
  { seesPrices, may }: Looker,
  locale: string,
): FittingAheadWords => {
  const page = `/commissions/${fitting.commissionId}/fittings/${fitting.id}`;
  const names = capitalised(listInWords(garments.map(({ name }) => name)));
  return {
    time: fitting.at,
    what: `${capitalised(FITTING_KIND_WORDS[fitting.kind])}, ${number}: ${names}`,
    href: may(page) ? page : '',
    who: listInWords(wearers),
    garments: garments.map((garment) => ({
      name: capitalised(garment.name),
      baste: basteInWords(garment),
      last: lastInWords(garment),
    })),
    balance: seesPrices ? balanceInWords(account, locale) : '',
    notes: fitting.notes,
  };
};

const basteInWords = ({ toBaste }: GarmentAhead): string => {
  if (toBaste.length === 0) return 'Nothing is left to baste.';
  const lines = toBaste.map((one) =>
    one.needsMinutes ? one.name : `${one.name}, ${minutesInWords(plannedMinutes(one))}`,
  );
  const together = toBaste.length > 1 ? ` Together ${minutesInWords(planMinutes(toBaste).minutes)}.` : '';
  return `To baste: ${lines.join('; ')}.${together}`;
};

const lastInWords = ({ last }: GarmentAhead): string => {
  if (!last) return 'Its first fitting.';
  return last.corrections.length === 0
    ? `At the fitting of ${dateInWords(last.on)} nothing was to be put right.`
    : `To put right since ${dateInWords(last.on)}: ${last.corrections.map(correctionInWords).join('; ')}.`;
};

const balanceInWords = ({ owed, credit }: Account, locale: string): string => {
  if (owed.minor > 0) return `${moneyInWords(owed, locale)} is still to pay.`;
  return credit.minor > 0 ? `${moneyInWords(credit, locale)} is held for them.` : 'Nothing is owed.';
};
