import { AWAY_KINDS, AWAY_WORDS } from '../../../domain/bench/bench-entry.js';
import type { FormModel, Link } from '../../../printing/templates/page-model.js';
import { type OpenGarment, openGarments } from '../../../storage/books/bench/open-garments.js';
import { sittingBook } from '../../../storage/books/bench/sitting-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { personLooking } from '../work/who-works.js';
import { clockWords } from './clock-now.page.js';
import { tapping } from './tap.js';

export const benchCrumb: Link = { text: 'Bench', href: '/' };
export const clockCrumb: Link = { text: 'The clock', href: '/bench' };

import type { SignedIn } from '../../../web/visit.js';

/** An address of the bench that keeps whose time it is about. */
export const forPerson = (url: string, personId: string | undefined): string =>
  personId ? `${url}${url.includes('?') ? '&' : '?'}person=${personId}` : url;

const MOST_AT_HAND = 12;
const A_PAGE = 40;

const choiceOf = (garment: OpenGarment, other: string | undefined) => ({
  place: String(garment.place),
  name: capitalised(garment.name),
  note: [
    garment.commissionNumber,
    garment.wearerName,
    ...(garment.dueOn ? [`due ${dateInWords(garment.dueOn)}`] : []),
  ].join(', '),
  href: forPerson(`/bench/garments/${garment.id}`, other),
});

/** Whose time it is, where the owner may choose. */
export const whoseWords = async (reading: Reading, visit: SignedIn, personId = '') => {
  const { person, mine, others } = await personLooking(reading, visit, personId);
  const other = person && person.id !== mine?.id ? person.id : undefined;
  return {
    other,
    whose:
      others.length > 1
        ? {
            chosen: person?.id ?? '',
            options: others.map(({ id, name }) => ({ value: id, text: name, chosen: id === person?.id })),
          }
        : ('' as const),
    personName: other ? (person?.name ?? '') : '',
  };
};

/** The clock, what it may be started on, and time without a garment. */
export const benchPage = async (
  reading: Reading,
  clock: Clock,
  visit: SignedIn,
  personId = '',
  form?: FormModel,
): Promise<{ template: string; words: PageWords }> => {
  const { other, whose, personName } = await whoseWords(reading, visit, personId);
  const all = await openGarments(reading);
  const last = await sittingBook.lastGarments(reading);
  const atHand = [
    ...last.flatMap((id) => all.filter((garment) => garment.id === id)),
    ...all.filter(({ id }) => !last.includes(id)),
  ].slice(0, MOST_AT_HAND);
  const taps = tapping(visit, clock.now(), other);
  return {
    template: 'bench/clock/clock',
    words: {
      title: personName ? `The clock of ${personName}` : 'The clock',
      room: 'bench',
      crumbs: [benchCrumb],
      clock: await clockWords(reading, clock, visit, personId, form),
      whose,
      hand: personName,
      garments: atHand.map((garment) => choiceOf(garment, other)),
      all: all.length > atHand.length ? forPerson('/bench/garments', other) : '',
      away: AWAY_KINDS.map((kind) =>
        taps.start(capitalised(AWAY_WORDS[kind]), `Start ${AWAY_WORDS[kind]}`, { away: kind }),
      ),
      time: forPerson('/bench/time', other),
      ...(form ? { form } : {}),
    },
  };
};

/** All garments that are being made, a page at a time. */
export const garmentsPage = async (
  reading: Reading,
  visit: SignedIn,
  after = '',
  personId = '',
): Promise<PageWords> => {
  const { other } = await whoseWords(reading, visit, personId);
  const all = await openGarments(reading);
  const from = after ? all.findIndex(({ id }) => id === after) + 1 : 0;
  const shown = all.slice(from, from + A_PAGE);
  const last = shown.at(-1)?.id;
  return {
    title: 'Garments being made',
    room: 'bench',
    crumbs: [benchCrumb, clockCrumb],
    garments: shown.map((garment) => choiceOf(garment, other)),
    pager: {
      label: 'Garments',
      ...(from > 0
        ? { earlier: { text: 'From the beginning', href: forPerson('/bench/garments', other) } }
        : {}),
      ...(from + A_PAGE < all.length
        ? { later: { text: 'Further on', href: forPerson(`/bench/garments?after=${last}`, other) } }
        : {}),
    },
  };
};
