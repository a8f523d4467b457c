import { checkConsent, hasRunOut, mayBePhotographed, type Photo } from '../../domain/fitting/photo.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { photoBook } from '../../storage/books/fitting/photo-book.js';
import { keepingBook } from '../../storage/books/house/keeping-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../storage/clock.js';
import { redrawPhoto } from '../../storage/pictures/redraw-photo.js';
import type { Reading, Visit, Writing } from '../../storage/session.js';
import type { Done, UnitOfWork } from '../../storage/unit-of-work.js';
import type { ConsentSaid, PhotoSaid } from './photo.form.js';
import { type Subject, subjectOf } from './subject.js';

const dayOf = async (reading: Reading, clock: Clock): Promise<string> =>
  todayIn(clock, (await studioBook.the(reading)).identity.zone);

/** What was said, checked; a swatch keeps nothing of a consent, since nobody is on it. */
const agreed = <T extends { readonly takenOn: string } & ConsentSaid>(
  said: T,
  subject: Subject,
  today: string,
): T & { readonly until: string | undefined } => {
  const isOfSomebody = subject.people.length > 0;
  const { until } = checkConsent({ ...said, until: said.until }, today, isOfSomebody);
  return isOfSomebody ? { ...said, until } : { ...said, scope: undefined, consentBy: '', until: undefined };
};

/**
 * Adds a photograph: drawn anew without what the camera wrote, with what was agreed about it.
 *
 * @throws Invalid when it is no photograph, too large, or nobody agreed; NotAllowed for a child where the house has not
 *   switched that on
 */
export const addPhoto = async (
  unit: UnitOfWork,
  reading: Reading,
  clock: Clock,
  visit: Visit,
  { of, ...said }: PhotoSaid,
  bytes: Uint8Array,
): Promise<Done<Photo>> => {
  const look = async (at: Reading): Promise<Subject> => {
    const subject = await subjectOf(at, of);
    const rule = await photoBook.rule(at);
    for (const one of subject.people) {
      await keepingBook.mustBeKept(at, one.id);
      mayBePhotographed(one, said.takenOn, rule);
    }
    return subject;
  };
  const today = await dayOf(reading, clock);
  const words = agreed(said, await look(reading), today);
  // Outside the write: others need not wait while a picture is drawn.
  const { picture, small, width, height } = await redrawPhoto(bytes);
  return unit.write(visit, async (writing) => {
    const subject = await look(writing);
    const photo = await photoBook.add(
      writing,
      { ...words, about: of, clientId: subject.people[0]?.id, width, height, addedBy: visit.who.name },
      { picture, small },
    );
    writing.says(`Added a photograph: ${subject.name}`, of);
    return photo;
  });
};

/** Says anew what was agreed about a photograph. @throws Invalid, Stale */
export const correctConsent = (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  id: string,
  said: ConsentSaid,
  seen?: number,
): Promise<Done<Photo>> =>
  unit.write(visit, async (writing) => {
    const present = await photoBook.one(writing, id);
    const subject = await subjectOf(writing, present.about);
    const words = agreed({ ...present, ...said }, subject, await dayOf(writing, clock));
    const photo = await photoBook.correct(writing, id, words, seen);
    writing.says(`Said anew what was agreed about a photograph: ${subject.name}`, present.about);
    return photo;
  });

/** Takes a photograph away for good; nothing brings it back. @throws NotFound */
export const takeAwayPhoto = (unit: UnitOfWork, visit: Visit, id: string): Promise<Done<Photo>> =>
  unit.write(visit, async (writing) => {
    const photo = await photoBook.takeAway(writing, id);
    writing.says('Took a photograph away for good', photo.about);
    return photo;
  });

/** Somebody takes back their consent to every photograph they are on. */
export const withdrawConsent = (unit: UnitOfWork, visit: Visit, clientId: string): Promise<Done<number>> =>
  unit.write(visit, async (writing: Writing) => {
    const taken = await photoBook.takeAwayOf(writing, clientId);
    writing.says('Took away every photograph, as the consent was withdrawn', `client/${clientId}`);
    return taken;
  });

/** Photographs that may still be looked at today, newest first. */
export const photosOf = async (reading: Reading, clock: Clock, about: string): Promise<Photo[]> => {
  const today = await dayOf(reading, clock);
  return (await photoBook.about(reading, about)).filter((photo) => !hasRunOut(photo, today));
};

/** One that may still be looked at. @throws NotFound, also once its consent has run out */
export const photoInSight = async (reading: Reading, clock: Clock, id: string): Promise<Photo> => {
  const photo = await photoBook.one(reading, id);
  if (hasRunOut(photo, await dayOf(reading, clock))) throw new NotFound('photograph');
  return photo;
};
