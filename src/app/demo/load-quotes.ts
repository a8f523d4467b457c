import { addDays } from '../../domain/kernel/calendar-date.js';
import { PdfPrinter } from '../../printing/browser/pdf-printer.js';
import { NoBrowser } from '../../printing/browser/print-troubles.js';
import { Stationery } from '../../printing/papers/stationery.js';
import { answerQuote } from '../../rooms/commissions/quotes/answers/answer-quote.js';
import { beginQuote } from '../../rooms/commissions/quotes/drafts/keep-draft.js';
import { Issuing } from '../../rooms/commissions/quotes/issuing/issuing.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { IssuingTurn } from '../../storage/issuing/issuing-turn.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import type { DemoCommission } from './demo-file.js';
import type { LoadedDemo } from './load-demo.js';

const DAY = 86_400_000;

/** The clock as it stood some days ago, so that the demonstration's papers carry the dates of their story. */
class DaysAgo extends Clock {
  constructor(
    private readonly clock: Clock,
    private readonly days: number,
  ) {
    super();
  }

  now(): string {
    return `${addDays(this.clock.now().slice(0, 10), -this.days)}${this.clock.now().slice(10)}`;
  }

  ticks(): number {
    return this.clock.ticks() - this.days * DAY;
  }
}

/** What can be asked for by its class: the application. */
type House = { get<T>(one: abstract new (...parts: never[]) => T): T };

/**
 * Issues the demonstration's quotes through the room's own acts, the oldest first, and puts down their answers.
 *
 * @returns a sentence when there is no browser to print them; the drafts stay then
 */
export const loadQuotes = async (
  house: House,
  visit: Visit,
  zone: string,
  { file, commissions }: LoadedDemo,
): Promise<string | undefined> => {
  const inOrder = [...file.commissions].sort((a, b) => (b.quote.agoDays ?? 0) - (a.quote.agoDays ?? 0));
  try {
    for (const told of inOrder) await loadQuote(house, visit, zone, told, commissions.get(told.key) ?? '');
    return undefined;
  } catch (error) {
    if (error instanceof NoBrowser) return error.message;
    throw error;
  }
};

const loadQuote = async (
  house: House,
  visit: Visit,
  zone: string,
  told: DemoCommission,
  commissionId: string,
): Promise<void> => {
  const { quote } = told;
  const [unit, read] = [house.get(UnitOfWork), house.get(ReadSide)];
  const then = new DaysAgo(house.get(Clock), quote.agoDays ?? 0);
  const { value: draft } = await beginQuote(unit, then, visit, commissionId);
  if (quote.issue === false) return;
  const turn = house.get(IssuingTurn);
  const issuing = new Issuing(read, unit, then, house.get(Stationery), house.get(PdfPrinter), turn);
  const { hand } = await issuing.inHand(commissionId, draft.id);
  const looked = hand.findings.filter(({ blocks }) => !blocks).map(({ code }) => code);
  const { value: issued } = await issuing.issue(visit, commissionId, draft.id, looked, draft.version);
  if (!quote.answer) return;
  const declined = quote.answer === 'declined';
  await answerQuote(
    unit,
    then,
    visit,
    issued,
    {
      answer: quote.answer,
      answeredOn: todayIn(then, zone),
      byWhom: quote.who ?? '',
      how: declined ? 'in person' : (quote.how ?? ''),
      words: declined ? (quote.how ?? '') : '',
      taken: undefined,
    },
    true,
  );
};
