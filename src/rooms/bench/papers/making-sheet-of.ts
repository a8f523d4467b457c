import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { MODE_WORDS, STAGE_WORDS, STAGES } from '../../../domain/making/mode.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import { planMinutes } from '../../../domain/making/plan-minutes.js';
import type { MakingSheet } from '../../../printing/papers/bench-papers.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { factsOf } from './docket-of.js';
import type { GarmentPapers } from './gather.js';

/** The making sheet of a garment: every operation that was not left out, by stage, with its planned time. */
export const makingSheetOf = (told: GarmentPapers, today: CalendarDate): MakingSheet => ({
  ...told.head,
  facts: factsOf(told, today).filter(({ text }) => text !== ''),
  stages: STAGES.flatMap((stage) => {
    const operations = told.plan.filter((one) => one.stage === stage);
    return operations.length === 0
      ? []
      : [
          {
            name: STAGE_WORDS[stage],
            operations: operations.map((one) => ({
              name: one.name,
              note: MODE_WORDS[one.mode],
              planned: one.needsMinutes ? '' : minutesInWords(plannedMinutes(one)),
              state: told.finished.has(one.id) ? 'finished' : told.isCut && stage === 'cut' ? 'cut' : '',
            })),
          },
        ];
  }),
  total: minutesInWords(planMinutes(told.plan).minutes),
});
