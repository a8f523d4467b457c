import { describe, expect, it } from 'vitest';
import { mendedFor, mendingOf } from '../../../src/web/manners/mending.js';

const DRAFT =
  '/commissions/0190c0de-0000-7000-8000-000000000001/quotes/drafts/0190c0de-0000-7000-8000-000000000002';
const asked = (url: string, query: object = {}, cookies: Record<string, string> = {}) =>
  mendingOf({ url, query, cookies } as Parameters<typeof mendingOf>[0]);

describe('a draft that waits while something is mended for it', () => {
  it('is named in the way out, and not within the draft itself', () => {
    expect(mendedFor(DRAFT, '/house')).toBe(`/house?mending=${encodeURIComponent(`${DRAFT}/check`)}`);
    const check = encodeURIComponent(`${DRAFT}/check`);
    expect(mendedFor(DRAFT, '/house/tax?year=2026#rate')).toBe(`/house/tax?year=2026&mending=${check}#rate`);
    expect(mendedFor(DRAFT, `${DRAFT}#field-due`)).toBe(`${DRAFT}#field-due`);
  });

  it('is led back to, from the first page and from those after it', () => {
    const back = expect.objectContaining({ href: `${DRAFT}/check` });
    expect(asked('/house?mending=…', { mending: `${DRAFT}/check` })).toEqual({
      back,
      keep: `${DRAFT}/check`,
    });
    expect(asked('/house/tax', {}, { mending: `${DRAFT}/check` })).toEqual({ back, keep: undefined });
  });

  it('is forgotten once it is looked at again', () => {
    for (const url of [DRAFT, `${DRAFT}/check?again`])
      expect(asked(url, {}, { mending: `${DRAFT}/check` })).toEqual({ back: undefined, keep: null });
  });

  it('leads nowhere else', () => {
    for (const mending of ['https://example.com', '//example.com/check', '/house', `${DRAFT}/../check`, ''])
      expect(asked('/house', { mending }, { mending })).toEqual({ back: undefined, keep: undefined });
    expect(asked('/house', { mending: ['a', 'b'] })).toEqual({ back: undefined, keep: undefined });
  });
});
