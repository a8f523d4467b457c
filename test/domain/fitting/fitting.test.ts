import { describe, expect, it } from 'vitest';
import { correctionInWords, readCorrections } from '../../../src/domain/fitting/correction.js';
import { checkHeld, checkPlanned, mustBePlanned } from '../../../src/domain/fitting/fitting.js';
import { instantsOf, overlaps } from '../../../src/domain/fitting/fitting-time.js';
import { patternNumber, withoutDrafting } from '../../../src/domain/fitting/pattern.js';
import {
  checkConsent,
  FIRST_PHOTO_RULE,
  hasRunOut,
  mayBePhotographed,
} from '../../../src/domain/fitting/photo.js';
import { Conflict, Invalid, NotAllowed } from '../../../src/domain/kernel/errors.js';
import type { MakingPlan } from '../../../src/domain/making/making-plan.js';

const fieldsOf = (act: () => unknown): string[] => {
  try {
    act();
  } catch (error) {
    if (error instanceof Invalid) return error.fields.map(({ field }) => field);
    throw error;
  }
  return [];
};

describe('a planned fitting', () => {
  const said = { garmentIds: ['g1'], on: '2026-03-12', at: '14:30', minutes: 45 };
  it('is kept as it is said', () => expect(checkPlanned(said)).toBe(said));
  it('needs a garment, a day, a time and a length', () => {
    expect(
      fieldsOf(() => checkPlanned({ garmentIds: [], on: '2026-02-30', at: '24:00', minutes: 481 })),
    ).toEqual(['garments', 'on', 'at', 'minutes']);
    expect(fieldsOf(() => checkPlanned({ ...said, minutes: 4 }))).toEqual(['minutes']);
  });
  it('is held, missed or put off once', () => {
    expect(() => mustBePlanned({ state: 'planned' })).not.toThrow();
    expect(() => mustBePlanned({ state: 'missed' })).toThrow(Conflict);
  });
});

describe('a held fitting', () => {
  const said = { on: '2026-03-12', guardian: '', patternChanged: false, patternWords: '' };
  it('lies not in the future', () => {
    expect(fieldsOf(() => checkHeld(said, '2026-03-11', false))).toEqual(['on']);
    expect(fieldsOf(() => checkHeld(said, '2026-03-12', false))).toEqual([]);
  });
  it('of a child names the guardian who stood by, and a changed pattern says how', () => {
    expect(fieldsOf(() => checkHeld({ ...said, patternChanged: true }, '2026-03-12', true))).toEqual([
      'guardian',
      'patternWords',
    ]);
  });
});

describe('the time of a fitting', () => {
  it('is read on the studio’s clock, summer and winter', () => {
    expect(instantsOf({ on: '2026-01-12', at: '14:30', minutes: 45 }, 'Europe/Dublin')).toEqual({
      start: '2026-01-12T14:30:00Z',
      end: '2026-01-12T15:15:00Z',
    });
    expect(instantsOf({ on: '2026-07-13', at: '14:30', minutes: 45 }, 'Europe/Dublin').start).toBe(
      '2026-07-13T13:30:00Z',
    );
  });
  // RFC 5545 section 3.3.5: a local time that does not occur is read with the offset before the gap, one that occurs
  // twice is the first.
  it('that a clock change leaves out or brings twice is read as RFC 5545 says', () => {
    expect(instantsOf({ on: '2026-03-29', at: '01:30', minutes: 30 }, 'Europe/Dublin').start).toBe(
      '2026-03-29T01:30:00Z',
    );
    expect(instantsOf({ on: '2026-10-25', at: '01:30', minutes: 30 }, 'Europe/Dublin').start).toBe(
      '2026-10-25T00:30:00Z',
    );
  });
  it('overlaps another where they share a minute, not where they touch', () => {
    const one = { on: '2026-03-12', at: '14:30', minutes: 45 };
    expect(overlaps(one, { ...one, at: '15:14' }, 'Europe/Dublin')).toBe(true);
    expect(overlaps(one, { ...one, at: '15:15' }, 'Europe/Dublin')).toBe(false);
    // Over midnight into the next day.
    expect(
      overlaps({ ...one, at: '23:50' }, { on: '2026-03-13', at: '00:10', minutes: 30 }, 'Europe/Dublin'),
    ).toBe(true);
  });
});

describe('corrections', () => {
  const row = { garmentId: '', place: ' left  shoulder ', direction: 'raise', amount: '1/4 in' };
  it('keep the amount as typed and in exact millimetres', () => {
    const [one] = readCorrections([row], ['g1'], { preferred: 'in', signed: true });
    expect(one).toEqual({
      garmentId: 'g1',
      place: 'left shoulder',
      direction: 'raise',
      amount: '1/4 in',
      mm: '6.35',
    });
    expect(correctionInWords(one!)).toBe('left shoulder: raise 1/4 in');
  });
  it('may be without a length; rows nobody wrote in are left out', () => {
    const rows = [
      { garmentId: '', place: '', direction: '', amount: ' ' },
      { ...row, amount: '' },
    ];
    expect(readCorrections(rows, ['g1'], { preferred: 'cm' })).toMatchObject([{ amount: '', mm: undefined }]);
  });
  it('name the row and field at fault', () => {
    const rows = [row, { garmentId: 'other', place: '', direction: 'burn', amount: 'a thumb' }];
    expect(fieldsOf(() => readCorrections(rows, ['g1', 'g2'], { preferred: 'cm' }))).toEqual([
      'corrections.0.garmentId',
      'corrections.1.garmentId',
      'corrections.1.place',
      'corrections.1.direction',
      'corrections.1.amount',
    ]);
  });
});

describe('a pattern', () => {
  it('is numbered', () => expect([patternNumber(1), patternNumber(1234)]).toEqual(['P-001', 'P-1234']));
  it('spares the drafting, and only that', () => {
    const plan = [
      { id: '1', stage: 'draft' },
      { id: '2', stage: 'cut' },
      { id: '3', stage: 'draft' },
    ] as unknown as MakingPlan;
    const { plan: rest, left } = withoutDrafting(plan);
    expect([rest.map(({ id }) => id), left.map(({ id }) => id)]).toEqual([['2'], ['1', '3']]);
  });
});

describe('a photograph', () => {
  const consent = {
    scope: 'workroom' as const,
    consentBy: 'Corvin Haddlestone',
    until: '2026-12-31',
    takenOn: '2026-03-12',
  };
  it('of a person needs what was agreed, by whom, until when', () => {
    expect(checkConsent(consent, '2026-03-12')).toBe(consent);
    expect(
      fieldsOf(() =>
        checkConsent({ ...consent, scope: undefined, consentBy: '', until: undefined }, '2026-03-12'),
      ),
    ).toEqual(['scope', 'consentBy', 'until']);
    expect(fieldsOf(() => checkConsent({ ...consent, takenOn: '2027-01-01' }, '2027-01-01'))).toEqual([
      'until',
    ]);
    expect(fieldsOf(() => checkConsent(consent, '2026-03-11'))).toEqual(['takenOn']);
  });
  it('of a child is taken only where the house allows it', () => {
    const child = { isChild: true, birthDate: undefined };
    expect(() => mayBePhotographed(child, '2026-03-12', FIRST_PHOTO_RULE)).toThrow(NotAllowed);
    expect(() => mayBePhotographed(child, '2026-03-12', { ofChildren: true })).not.toThrow();
    const grown = { isChild: true, birthDate: '2008-03-12' };
    expect(() => mayBePhotographed(grown, '2026-03-12', FIRST_PHOTO_RULE)).not.toThrow();
    expect(() => mayBePhotographed(grown, '2026-03-11', FIRST_PHOTO_RULE)).toThrow(NotAllowed);
  });
  it('may be kept to the end of the last day', () => {
    expect(hasRunOut({ until: '2026-03-12' }, '2026-03-12')).toBe(false);
    expect(hasRunOut({ until: '2026-03-12' }, '2026-03-13')).toBe(true);
    expect(hasRunOut({ until: undefined }, '2099-01-01')).toBe(false);
  });
});
