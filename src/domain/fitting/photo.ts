import { type Client, isChildOn } from '../clients/client.js';
import type { CalendarDate } from '../kernel/calendar-date.js';
import { type FieldTrouble, Invalid, NotAllowed } from '../kernel/errors.js';

/** What a photograph may be used for, as the person in it, or their guardian, agreed. */
export const CONSENT_SCOPES = ['workroom', 'client', 'published'] as const;
export type ConsentScope = (typeof CONSENT_SCOPES)[number];

/** The scopes in words. */
export const CONSENT_WORDS: Readonly<Record<ConsentScope, string>> = {
  workroom: 'the workroom only',
  client: 'the workroom and the client',
  published: 'may be shown to others',
};

/** A photograph, without its bytes. */
export type Photo = {
  readonly id: string;
  readonly version: number;
  /** Path of what it shows: `material/…`, `commission/…/garment/…`. */
  readonly about: string;
  /** Whose body may be on it; none on a swatch. */
  readonly clientId: string | undefined;
  readonly takenOn: CalendarDate;
  readonly words: string;
  /** None where nobody is on it. */
  readonly scope: ConsentScope | undefined;
  readonly consentBy: string;
  /** The last day of the consent; none without an end. */
  readonly until: CalendarDate | undefined;
  readonly width: number;
  readonly height: number;
  readonly addedBy: string;
};

/** What the house has settled about photographs. */
export type PhotoRule = {
  readonly version: number;
  /** May children be photographed at all? */
  readonly ofChildren: boolean;
  /** Months a photograph of a grown-up is kept unless it is said otherwise. */
  readonly months: number;
  /** The same of a child: shorter. */
  readonly childMonths: number;
};

/** What holds until the house says otherwise: no children; two years, half a year. Our own choice, no source. */
export const FIRST_PHOTO_RULE: PhotoRule = { version: 0, ofChildren: false, months: 24, childMonths: 6 };

/** The most bytes of a photograph that is sent. */
export const MOST_PHOTO_BYTES = 20 * 1024 * 1024;
/** The longest side of a photograph that is kept, in pixels. */
export const LONGEST_SIDE = 1600;
/** The longest side of the small picture of it. */
export const SMALL_SIDE = 320;
/** The most pixels a picture may unfold to: a small file can hold an immense one. */
export const MOST_PIXELS = 100_000_000;

/**
 * May this person be photographed on this day?
 *
 * @throws NotAllowed when they are a child and the house has not switched photographs of children on
 */
export const mayBePhotographed = (
  client: Pick<Client, 'isChild' | 'birthDate'>,
  on: CalendarDate,
  rule: Pick<PhotoRule, 'ofChildren'>,
): void => {
  if (isChildOn(client, on) && !rule.ofChildren)
    throw new NotAllowed(
      'Children are not photographed in this house. It can be switched on in House, Photographs.',
    );
};

/**
 * What was agreed about a photograph, checked.
 *
 * @param today the day it is added
 * @param ofSomebody is anybody on it? A swatch needs nobody's consent
 * @throws Invalid per field: nobody agreed, or the consent ended before today
 * @see test/domain/fitting/fitting.test.ts
 */
export const checkConsent = <
  T extends {
    readonly scope: ConsentScope | undefined;
    readonly consentBy: string;
    readonly until: CalendarDate | undefined;
    readonly takenOn: CalendarDate;
  },
>(
  said: T,
  today: CalendarDate,
  ofSomebody = true,
): T => {
  const troubles: FieldTrouble[] = [];
  if (said.takenOn > today) troubles.push({ field: 'takenOn', text: 'This day is still to come.' });
  if (ofSomebody) troubles.push(...consentTroubles(said, today));
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This cannot be kept.', troubles);
  return said;
};

const consentTroubles = (
  said: Pick<Photo, 'scope' | 'consentBy' | 'until'>,
  today: CalendarDate,
): FieldTrouble[] => {
  const troubles: FieldTrouble[] = [];
  if (!said.scope) troubles.push({ field: 'scope', text: 'Say what it may be used for.' });
  if (said.consentBy === '')
    troubles.push({ field: 'consentBy', text: 'Write who agreed to the photograph.' });
  if (!said.until) troubles.push({ field: 'until', text: 'Say until when it may be kept.' });
  else if (said.until < today) troubles.push({ field: 'until', text: 'This day is over already.' });
  return troubles;
};

/** Is the consent over on this day? Such a photograph is shown to nobody and taken away. */
export const hasRunOut = ({ until }: Pick<Photo, 'until'>, today: CalendarDate): boolean =>
  until !== undefined && until < today;
