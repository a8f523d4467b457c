import { Decimal } from '../../../domain/kernel/decimal.js';
import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import type { ModeLesson, OperationLesson } from '../../../domain/lessons/by-operation.js';
import { MODE_WORDS } from '../../../domain/making/mode.js';
import { capitalised } from '../../../web/words/counts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { type Explained, inFactors } from '../../../web/words/factors.js';
import { overrunInWords, ratioInWords } from '../lesson-words.js';

const minutes = (value: number): string => minutesInWords(wholeMinutes(new Decimal(value.toFixed(3))));

/** What each operation takes, hand, machine and press told apart. */
export const operationsTable = (operations: readonly OperationLesson[]): object => ({
  caption: 'By operation',
  columns: [
    { text: 'Operation' },
    { text: 'Garments', figure: true },
    { text: 'A typical one', figure: true },
    { text: 'The next one, even', figure: true },
    { text: '4\u00a0in\u00a05', figure: true },
    { text: '9\u00a0in\u00a010', figure: true },
    { text: 'Against the plan' },
  ],
  rows: operations.map((one) => ({
    cells: [
      { text: capitalised(one.name), note: MODE_WORDS[one.mode] },
      { text: String(one.garments) },
      { text: minutes(one.typical) },
      { text: minutes(one.even) },
      { text: minutes(one.fourInFive) },
      { text: minutes(one.nineInTen) },
      { text: overrunInWords(one.overrun) },
    ],
  })),
});

/** Hand against machine against press. */
export const modesTable = (modes: readonly ModeLesson[]): object => ({
  caption: 'By hand, by machine, at the press',
  columns: [
    { text: 'Mode' },
    { text: 'Garments', figure: true },
    { text: 'Planned', figure: true },
    { text: 'Taken', figure: true },
    { text: 'Against the plan' },
  ],
  rows: modes.map(({ mode, garments, plannedMinutes, actualMinutes }) => ({
    cells: [
      { text: capitalised(MODE_WORDS[mode]) },
      { text: String(garments) },
      { text: minutesInWords(plannedMinutes) },
      { text: minutesInWords(actualMinutes) },
      { text: plannedMinutes > 0 ? ratioInWords(new Decimal(actualMinutes).div(plannedMinutes)) : '' },
    ],
  })),
});

/** How each line of the usual plan comes to its hours. */
export const multiplications = (
  usual: readonly Explained[],
  names: ReadonlyMap<string, string>,
  plural: string,
  locale: string,
): object => ({
  caption: 'How the usual plan comes to its hours',
  columns: [{ text: 'Operation' }, { text: 'At even chance' }, { text: 'Times known', figure: true }],
  rows: usual.map((one) => ({
    cells: [
      { text: capitalised(one.name) },
      { text: inFactors(one, { plural, kind: names.get(one.kind) ?? one.kind, locale }) },
      { text: String(one.rows) },
    ],
  })),
});
