import { Temporal } from 'temporal-polyfill';
import { CONSENT_SCOPES, CONSENT_WORDS, type Photo, type PhotoRule } from '../../domain/fitting/photo.js';
import type { FormModel, Room } from '../../printing/templates/page-model.js';
import { freshForm } from '../../web/forms/form.js';
import type { PageWords } from '../../web/reply.js';
import { capitalised } from '../../web/words/counts.js';
import { dateInWords } from '../../web/words/dates.js';
import { isOfChild, type Subject } from './subject.js';

/** What a page of photographs is drawn from. */
export type PhotosTold = {
  readonly subject: Subject;
  readonly photos: readonly Photo[];
  readonly rule: PhotoRule;
  readonly today: string;
};

const ROOMS: Readonly<Record<string, Room>> = { client: 'clients', material: 'cloth-room' };
const SCOPES = CONSENT_SCOPES.map((value) => ({ value, text: capitalised(CONSENT_WORDS[value]) }));

/** The address of the photographs of something. */
export const photosUrl = (about: string): string => `/photos?of=${about}`;

/** A new photograph: taken today, agreed for as long as the house keeps them. */
export const newPhotoForm = ({ subject, rule, today }: PhotosTold): FormModel => {
  const child = isOfChild(subject, today);
  const months = child ? rule.childMonths : rule.months;
  const [person] = subject.people;
  return freshForm('', {
    takenOn: today,
    ...(person
      ? {
          scope: 'workroom',
          consentBy: child ? person.guardian : person.name,
          until: Temporal.PlainDate.from(today).add({ months }).toString(),
        }
      : {}),
  });
};

/** The photographs of one thing, and the form that adds one. */
export const photosPage = (told: PhotosTold, form: FormModel): { template: string; words: PageWords } => {
  const { subject, photos, rule, today } = told;
  const isSwatch = subject.people.length === 0;
  const refusesChildren = isOfChild(subject, today) && !rule.ofChildren;
  return {
    template: 'photos/list',
    words: {
      title: `Photographs: ${subject.name}`,
      tab: 'Photographs',
      room: ROOMS[subject.about.split('/')[0] ?? ''] ?? 'commissions',
      crumbs: [{ text: subject.name, href: subject.url }],
      any: photos.length > 0,
      photos: photos.map((photo) => seen(photo, subject)),
      form: { ...form, action: '/photos' },
      of: subject.about,
      isSwatch,
      refusesChildren,
      scopes: SCOPES,
      leave: { text: 'Back', href: subject.url },
      withdraw: photos.length > 0 ? withdrawalsOf(subject) : [],
    },
  };
};

const seen = (photo: Photo, subject: Subject): object => ({
  id: photo.id,
  whole: `/photos/${photo.id}/picture`,
  small: `/photos/${photo.id}/small`,
  alt: photo.words || `${subject.name}, ${dateInWords(photo.takenOn)}`,
  words: photo.words,
  taken: `Taken on ${dateInWords(photo.takenOn)}.`,
  agreed: photo.scope
    ? `Agreed by ${photo.consentBy}: ${CONSENT_WORDS[photo.scope]}, until ${dateInWords(photo.until ?? photo.takenOn)}.`
    : '',
  change: photo.scope ? `/photos/${photo.id}` : '',
  takeAway: {
    action: `/photos/${photo.id}/take-away`,
    text: 'Take it away for good',
    label: `Take away for good: ${photo.words || 'photograph'} of ${dateInWords(photo.takenOn)}`,
    once: freshForm('').once,
  },
});

const withdrawalsOf = ({ people, about }: Subject): object[] =>
  people.map(({ id, name }) => ({
    action: '/photos/withdraw',
    text: `${name} withdraws: take away every photograph`,
    once: freshForm('').once,
    values: { client: id, of: about },
  }));

/** The form that says anew what was agreed. */
export const consentPage = (
  photo: Photo,
  subject: Subject,
  form: FormModel,
): { template: string; words: PageWords } => ({
  template: 'photos/consent',
  words: {
    title: `What was agreed: photograph of ${dateInWords(photo.takenOn)}`,
    room: ROOMS[subject.about.split('/')[0] ?? ''] ?? 'commissions',
    crumbs: [
      { text: subject.name, href: subject.url },
      { text: 'Photographs', href: photosUrl(subject.about) },
    ],
    form: { ...form, action: `/photos/${photo.id}` },
    small: `/photos/${photo.id}/small`,
    scopes: SCOPES,
    leave: { text: 'Leave as it is', href: photosUrl(subject.about) },
  },
});

/** What the house has settled about photographs. */
export const rulePage = (form: FormModel): { template: string; words: PageWords } => ({
  template: 'photos/rule',
  words: {
    title: 'Photographs',
    room: 'house',
    crumbs: [{ text: 'House', href: '/house' }],
    form: { ...form, action: '/house/photographs' },
    leave: { text: 'Leave without saving', href: '/house' },
  },
});

export const typedRule = ({ ofChildren, months, childMonths }: PhotoRule): Record<string, string> => ({
  ofChildren: ofChildren ? 'yes' : '',
  months: String(months),
  childMonths: String(childMonths),
});
