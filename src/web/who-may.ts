import type { Room } from '../printing/templates/page-model.js';
import type { SignedIn } from './visit.js';

/** A place of the house: paths that begin so, and whether changing there is meant too. */
type Place = { readonly at: RegExp; readonly only?: 'reading' };

const place = (path: string, only?: 'reading'): Place => ({
  at: new RegExp(`^(/api)?${path}(?=[/.?]|$)`),
  ...(only ? { only } : {}),
});

const FOR_EVERYBODY: readonly Place[] = [
  place('/sign-out'),
  place('/sign-out-everywhere'),
  place('/help', 'reading'),
];

/** What a maker does: the bench, the papers of the bench, and fittings; nothing of it shows a price or an address. */
const FOR_THE_BENCH: readonly Place[] = [
  { at: /^\/(\?|$)/ },
  place('/bench'),
  place('/outwork'),
  place('/counter'),
  place('/promises'),
  place('/garments/[^/]+/bench-entries'),
  place('/commissions/[^/]+/fittings'),
  place('/garments/[^/]+/(docket|making-sheet|fitting-notes)\\.pdf', 'reading'),
  place('/commissions/[^/]+/garments/[^/]+/(docket|making-sheet|fitting-notes)(\\.pdf)?', 'reading'),
];

/** What a maker who is trusted with prices and addresses does beside the bench. */
const FOR_THE_TRUSTED: readonly Place[] = [
  place('/clients'),
  place('/commissions'),
  place('/garments'),
  place('/cloth-room'),
  place('/photos'),
  place('/patterns'),
  ...['materials', 'lots', 'purchases', 'suppliers', 'shopping-list'].map((path) => place(`/${path}`)),
  place('/lessons'),
  place('/find'),
  place('/history'),
  place('/work-out'),
];

/** What a bookkeeper does: papers, payments and money out; clients, commissions and rates are read. */
const FOR_THE_BOOKS: readonly Place[] = [
  place('/papers'),
  place('/payments'),
  place('/money-out'),
  place('/clients', 'reading'),
  place('/clients/[^/]+/account'),
  place('/commissions', 'reading'),
  place('/commissions/[^/]+/invoices'),
  place('/purchases'),
  place('/suppliers'),
  place('/cloth-room', 'reading'),
  place('/rates', 'reading'),
  place('/find', 'reading'),
  place('/work-out'),
];

/** What no maker changes, however trusted: what is asked of the client, and what the law wants kept of them. */
const NOT_FOR_MAKERS =
  /^(\/api)?\/(commissions\/[^/]+\/(quotes|invoices|pricing)|clients\/[^/]+\/(erasure|export|account))(?=[/.]|$)/;

/** What the owner alone does, whoever else may read clients: a whole person in one file, and forgetting one. */
const OWNERS_ALONE = /^(\/api)?\/clients\/[^/]+\/(held|export|erasure)(?=[/.]|$)/;

const READS = new Set(['GET', 'HEAD']);

type Hand = Pick<SignedIn, 'role' | 'seesPrices'>;

const placesOf = ({ role, seesPrices }: Hand): readonly Place[] => {
  if (role === 'bookkeeper') return [...FOR_EVERYBODY, ...FOR_THE_BOOKS];
  return seesPrices
    ? [...FOR_EVERYBODY, ...FOR_THE_BENCH, ...FOR_THE_TRUSTED]
    : [...FOR_EVERYBODY, ...FOR_THE_BENCH];
};

/**
 * May somebody go there? What is not named for their role is the owner's alone, so a new page is closed until it is
 * opened here.
 *
 * @param url path and query as they were asked for
 */
export const mayGo = (hand: Hand, method: string, url: string): boolean => {
  if (hand.role === 'owner') return true;
  const path = pathOf(url);
  if (path === undefined) return false;
  if (OWNERS_ALONE.test(path)) return false;
  if (hand.role === 'maker' && !READS.has(method) && NOT_FOR_MAKERS.test(path)) return false;
  return placesOf(hand).some(({ at, only }) => at.test(path) && (only === undefined || READS.has(method)));
};

/** The path as the router reads it: encoded letters open no door that the plain ones would not. */
const pathOf = (url: string): string | undefined => {
  try {
    const path = decodeURIComponent(url.split('?')[0] ?? '');
    return path.includes('//') || path.includes('\\') || path.split('/').includes('..') ? undefined : path;
  } catch {
    return undefined;
  }
};

const ROOMS: readonly (readonly [Room, string])[] = [
  ['bench', '/'],
  ['clients', '/clients'],
  ['commissions', '/commissions'],
  ['cloth-room', '/cloth-room'],
  ['papers', '/papers'],
  ['lessons', '/lessons'],
  ['rates', '/rates'],
  ['house', '/house'],
];

/** The rooms somebody may enter, for the letterhead of their pages. */
export const roomsFor = (hand: Hand): Room[] =>
  ROOMS.filter(([, path]) => mayGo(hand, 'GET', path)).map(([room]) => room);

/** The first page of somebody who has signed in. */
export const firstPageFor = (hand: Hand): string => (mayGo(hand, 'GET', '/') ? '/' : '/papers');
