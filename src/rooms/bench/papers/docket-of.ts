import { likeliestOperations } from '../../../domain/bench/likeliest.js';
import { FITTING_KIND_WORDS } from '../../../domain/fitting/fitting.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { MAKE_WORDS } from '../../../domain/making/mode.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import type { BenchFact, Docket } from '../../../printing/papers/bench-papers.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords, dayAndMonthInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import type { GarmentPapers } from './gather.js';

/** As many as one A6 holds beside the box for the cloth. */
const MOST_NEXT = 6;
const MOST_FITTINGS = 3;

/** What stands at the head of a docket and of a making sheet. */
export const factsOf = (told: GarmentPapers, today: CalendarDate): BenchFact[] => {
  const { garment, commission, pattern, fittings } = told;
  const due = garment.dueOn ?? commission.wantedBy;
  const ahead = fittings
    .filter(({ state, on }) => state === 'planned' && on >= today)
    .slice(0, MOST_FITTINGS);
  return [
    { label: 'Make', text: capitalised(MAKE_WORDS[garment.make]) },
    { label: 'Promised', text: due ? dateInWords(due) : '' },
    {
      label: 'Fittings',
      text: ahead
        .map(({ kind, on, at }) => `${FITTING_KIND_WORDS[kind]} ${dayAndMonthInWords(on)}, ${at}`)
        .join('; '),
    },
    { label: 'Pattern', text: pattern ? `${pattern.number}, ${pattern.hook}` : '' },
  ];
};

/** The docket of a garment: what is done next, and when it is wanted. */
export const docketOf = (told: GarmentPapers, today: CalendarDate): Docket => {
  const soFar = { finished: told.finished, leftOut: new Set<string>(), isCut: told.isCut, worked: [] };
  const toDo = likeliestOperations(told.plan, soFar, Math.max(1, told.plan.length));
  const more = toDo.length - MOST_NEXT;
  return {
    ...told.head,
    facts: factsOf(told, today),
    next: toDo.slice(0, MOST_NEXT).map((one) => ({
      name: one.name,
      time: one.needsMinutes ? '' : minutesInWords(plannedMinutes(one)),
    })),
    more: more > 0 ? `and ${countInWords(more, 'operation')} more` : '',
  };
};
