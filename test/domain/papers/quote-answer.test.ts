import { describe, expect, it } from 'vitest';
import {
  type QuoteAnswer,
  quoteState,
  standingAnswer,
} from '../../../src/domain/papers/quote/quote-answer.js';

const answer = (id: string, changes: Partial<QuoteAnswer> = {}): QuoteAnswer => ({
  id,
  answer: 'accepted',
  answeredOn: '2026-03-20',
  byWhom: 'Corvin Haddlestone',
  how: 'in person',
  words: '',
  taken: undefined,
  corrects: undefined,
  writtenAt: '2026-03-20T10:00:00.000Z',
  ...changes,
});

const stands = (answers: QuoteAnswer[], today: string, laterEdition = false) =>
  quoteState({ validUntil: '2026-04-01', laterEdition, answers }, today);

describe('how a quote stands', () => {
  it('is open on its last day and lapsed on the next', () => {
    expect(stands([], '2026-04-01')).toBe('open');
    expect(stands([], '2026-04-02')).toBe('lapsed');
  });

  it('gives way to a later version only while nobody answered', () => {
    expect(stands([], '2026-03-20', true)).toBe('superseded');
    expect(stands([answer('a')], '2026-06-01', true)).toBe('accepted');
    expect(stands([answer('a', { taken: ['j'] })], '2026-06-01', true)).toBe('accepted-in-part');
    expect(stands([answer('a', { answer: 'declined' })], '2026-03-20')).toBe('declined');
  });

  it('goes back to where it was when the answer is taken back', () => {
    const back = answer('b', { answer: 'taken-back', corrects: 'a', words: 'It was the other quote' });
    expect(stands([answer('a'), back], '2026-03-20')).toBe('open');
    expect(standingAnswer([answer('a'), back, answer('c', { answer: 'declined' })])?.id).toBe('c');
  });
});
