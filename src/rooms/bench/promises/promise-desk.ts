import { Injectable } from '@nestjs/common';
import type { Simulated } from '../../../domain/estimating/promise/simulate.js';
import { Invalid, NotAllowed, Trouble } from '../../../domain/kernel/errors.js';
import { type ClosedSpan, closedDayBook } from '../../../storage/books/bench/closed-day-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { SignedIn } from '../../../web/visit.js';
import type { AskedWords } from './asked.page.js';
import { daysOfSpan, type SpanSaid, type WouldMove, whatMoves } from './close-days.js';
import { type Backlog, datesOf, gatherBacklog, knowsHours } from './gather-promises.js';

/** What would move, with the versions the garments were looked at. */
export type Looked = {
  readonly said: SpanSaid;
  readonly moves: readonly WouldMove[];
  readonly versions: ReadonlyMap<string, number>;
};

/** Promised dates are on the job sheet, so they are moved by those who may open it. */
export const mustSeeJobs = ({ seesPrices }: SignedIn): void => {
  if (!seesPrices) throw new NotAllowed('Promises are moved by those who see prices and addresses.');
};

/** What the pages and the interface of promises have in common. */
@Injectable()
export class PromiseDesk {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  backlog(): Promise<Backlog> {
    return gatherBacklog(this.read, this.clock);
  }

  /** The dates; none, and a sentence why, where they cannot be worked out. */
  async dates(
    backlog: Backlog,
  ): Promise<{ readonly dates: Simulated | undefined; readonly trouble: string }> {
    if (!knowsHours(backlog)) return { dates: undefined, trouble: '' };
    try {
      return { dates: await datesOf(this.read, backlog), trouble: '' };
    } catch (error) {
      if (!(error instanceof Invalid)) throw error;
      return { dates: undefined, trouble: error.message };
    }
  }

  /** The same where there must be dates. @throws Invalid with the sentence */
  async sureDates(backlog: Backlog): Promise<Simulated> {
    if (!knowsHours(backlog))
      throw new Invalid('Nobody has said how many hours a week are worked. Say it in Rates first.');
    return datesOf(this.read, backlog);
  }

  /** Closed days to come, and whether letters lie ready for them. */
  async spans(today: string): Promise<(ClosedSpan & { readonly letters: boolean })[]> {
    const spans = await closedDayBook.spansSince(this.read, today);
    return Promise.all(
      spans.map(async (span) => ({
        ...span,
        letters: (await closedDayBook.moved(this.read, span.id)).length > 0,
      })),
    );
  }

  /** What would move if the days were closed; nothing moves where no dates are known. @throws Invalid per field */
  async look(backlog: Backlog, said: SpanSaid): Promise<Looked> {
    const days = daysOfSpan(said, backlog.today);
    const moves = knowsHours(backlog) ? (await whatMoves(this.read, backlog, days)).moves : [];
    const versions = new Map<string, number>();
    for (const { one } of moves)
      versions.set(one.garment.id, (await garmentBook.one(this.read, one.garment.id)).version);
    return { said, moves, versions };
  }
}

/** Works out what only asks: what was wrong is said on the page, with everything typed kept. */
export const asking = async <T>(
  typed: Readonly<Record<string, string>>,
  isAsked: boolean,
  work: () => Promise<T>,
): Promise<{ readonly asked: AskedWords; readonly found: T | undefined }> => {
  if (!isAsked) return { asked: { typed, troubles: [] }, found: undefined };
  try {
    return { asked: { typed, troubles: [] }, found: await work() };
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    const troubles = error.fields.length > 0 ? error.fields.map(({ text }) => text) : [error.message];
    return { asked: { typed, troubles }, found: undefined };
  }
};
