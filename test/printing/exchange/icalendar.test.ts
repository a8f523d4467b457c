import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type CalendarEvent, icalendarOf } from '../../../src/printing/exchange/icalendar.js';

/* Read back by ical.js, a reader that shares no line with the writer. Rules: RFC 5545 (IETF, 2009). */

const fitting: CalendarEvent = {
  uid: 'fitting-7@quillmere.example',
  stamp: '2026-11-25T12:43:00.500Z',
  start: '2026-12-01T15:00:00.000Z',
  end: '2026-12-01T15:45:00.000Z',
  summary: 'First fitting: Corvin Haddlestone',
  sequence: 0,
};

const bytes = (text: string): number => Buffer.byteLength(text, 'utf8');

const readBack = (text: string) => {
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents('vevent').map((each) => {
    const event = new ICAL.Event(each);
    const prop = (name: string): string | null => each.getFirstPropertyValue(name)?.toString() ?? null;
    return {
      uid: event.uid,
      summary: event.summary,
      description: event.description,
      location: event.location,
      start: event.startDate.toString(),
      end: event.endDate.toString(),
      zone: event.startDate.zone?.tzid,
      allDay: event.startDate.isDate,
      sequence: event.sequence,
      status: prop('status'),
      stamp: prop('dtstamp'),
    };
  });
};

describe('events as an iCalendar file', () => {
  it('are read back as they were meant', () => {
    const moved = { ...fitting, sequence: 2, cancelled: true, location: 'Cutting room; upstairs, left' };
    const [first, second] = readBack(icalendarOf([fitting, moved], { name: 'Quillmere Workroom' }));
    expect(first).toEqual({
      uid: 'fitting-7@quillmere.example',
      summary: 'First fitting: Corvin Haddlestone',
      description: null,
      location: null,
      start: '2026-12-01T15:00:00Z',
      end: '2026-12-01T15:45:00Z',
      zone: 'UTC',
      allDay: false,
      sequence: 0,
      status: 'CONFIRMED',
      stamp: '2026-11-25T12:43:00Z',
    });
    expect(second).toMatchObject({
      sequence: 2,
      status: 'CANCELLED',
      location: 'Cutting room; upstairs, left',
    });
  });

  it('keep whole days as days, the last one included', () => {
    const { start: _s, end: _e, ...rest } = fitting as CalendarEvent & { start: string; end: string };
    const [shut] = readBack(icalendarOf([{ ...rest, on: '2026-12-24', until: '2026-12-31' }]));
    expect(shut).toMatchObject({ start: '2026-12-24', end: '2027-01-01', allDay: true });
  });

  it('escape and fold whatever is typed', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 300 }),
        fc.array(fc.constantFrom('é', '漢', '🧵', '\\', ';', ',', '\n', '\r\n', ':', '"', 'a', ' '), {
          maxLength: 200,
        }),
        (noise, signs) => {
          const description = `x${signs.join('')}${noise}x`;
          const text = icalendarOf([{ ...fitting, description, summary: `Fitting ${description}` }]);
          for (const line of text.split('\r\n')) expect(bytes(line)).toBeLessThanOrEqual(75);
          expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
          const [back] = readBack(text);
          const kept = description
            .replace(/[^\t\n\r\u{20}-\u{7E}\u{80}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '')
            .replace(/\r\n|\r/g, '\n');
          expect(back?.description).toBe(kept);
          expect(readBack(text)).toHaveLength(1);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('let nobody write a line of their own', () => {
    const text = icalendarOf([
      { ...fitting, summary: 'Fitting\r\nATTACH:file:///etc/passwd', uid: 'a\r\nEND:VEVENT' },
    ]);
    expect(text).not.toMatch(/^ATTACH/m);
    expect(text.match(/^END:VEVENT\r$/gm)).toHaveLength(1);
    expect(readBack(text)[0]?.summary).toBe('Fitting ATTACH:file:///etc/passwd');
  });

  it('make an empty calendar of none', () => {
    expect(icalendarOf([])).toBe(
      'BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Bastings//Workroom calendar//EN\r\nCALSCALE:GREGORIAN\r\nEND:VCALENDAR\r\n',
    );
  });

  it.each([
    ['without an identifier', { uid: ' ' }],
    ['with a broken sequence', { sequence: -1 }],
    ['that ends as it begins', { end: '2026-12-01T15:00:00.000Z' }],
    ['at no point in time', { start: 'tomorrow' }],
    ['written at no point in time', { stamp: '' }],
  ])('are refused %s', (_why, wrong) => {
    expect(() => icalendarOf([{ ...fitting, ...wrong } as CalendarEvent])).toThrow(/./);
  });
});
