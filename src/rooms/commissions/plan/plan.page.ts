import type { MakingPlan } from '../../../domain/making/making-plan.js';
import {
  DRIVER_WORDS,
  MODE_WORDS,
  MODES,
  STAGE_WORDS,
  STAGES,
  type Stage,
} from '../../../domain/making/mode.js';
import { type Operation, plannedMinutes } from '../../../domain/making/operation.js';
import { minutesByMode, planMinutes } from '../../../domain/making/plan-minutes.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm } from '../../../web/forms/form.js';
import { capitalised, countInWords, listInWords } from '../../../web/words/counts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { shareInWords } from '../../../web/words/shares.js';
import { minutesEachForField } from './minutes-each.js';
import { fieldName, textsOf, WRITTEN_IN_PLACE, wasText } from './plan-edits.js';

/** The plan's form with every field as it stands. */
export const planForm = (action: string, plan: MakingPlan): FormModel =>
  freshForm(
    action,
    Object.fromEntries(
      plan.flatMap((one) => {
        const texts = textsOf(one);
        return [
          ...WRITTEN_IN_PLACE.map((field) => [fieldName(one.id, field), texts[field]]),
          [fieldName(one.id, 'was'), wasText(texts)],
        ];
      }),
    ),
  );

/**
 * The plan's form as it comes back: what this person typed anew is kept, everything else is as it stands now.
 *
 * @param isShownAnew has the person seen what stands now? Then the next save goes by that.
 */
export const planFormAgain = (fresh: FormModel, again: FormModel, isShownAnew: boolean): FormModel => {
  const values = { ...fresh.values };
  for (const [name, was] of Object.entries(again.values)) {
    const id = /^op\.([^.]{1,60})\.was$/.exec(name)?.[1];
    if (id === undefined || values[name] === undefined) continue;
    const before = was.split('|');
    const typedAnew = WRITTEN_IN_PLACE.filter((field, place) => {
      const typed = again.values[fieldName(id, field)];
      return typed !== undefined && typed.trim() !== before[place];
    });
    for (const field of typedAnew) values[fieldName(id, field)] = again.values[fieldName(id, field)] ?? '';
    if (typedAnew.length > 0 && !isShownAnew) values[name] = was;
  }
  return {
    ...fresh,
    values,
    errors: again.errors,
    ...(again.other ? { other: again.other } : {}),
  };
};

const modesInWords = (one: Operation): string =>
  one.modeShares.length > 0
    ? one.modeShares.map(({ mode, share }) => `${shareInWords(share)} ${MODE_WORDS[mode]}`).join(', ')
    : MODE_WORDS[one.mode];

const noteOf = (one: Operation, extraNumber: number | undefined): string =>
  [
    ...(extraNumber === undefined ? [] : [`extra ${extraNumber}`]),
    modesInWords(one),
    ...(one.basting ? ['basting'] : []),
    ...(one.driver !== 'once' && !one.fixedMinutes.isZero()
      ? [`and ${minutesEachForField(one.fixedMinutes)} min once`]
      : []),
    ...(one.handStitch ? ['reckoned from its stitches'] : []),
  ].join(' · ');

/** The button that was pressed, or the other way where it can go no further. */
const focusOf = (at: string, isFirst: boolean, isLast: boolean): 'up' | 'down' =>
  at.startsWith('up') ? (isFirst ? 'down' : 'up') : isLast ? 'up' : 'down';

const rowOf = (
  one: Operation,
  at: string,
  isFirst: boolean,
  isLast: boolean,
  extraNumber: number | undefined,
) => ({
  id: one.id,
  name: one.name,
  note: noteOf(one, extraNumber),
  quantity: fieldName(one.id, 'quantity'),
  minutes: fieldName(one.id, 'minutes'),
  shown: fieldName(one.id, 'shown'),
  was: fieldName(one.id, 'was'),
  goesBy: one.driver === 'once' || one.driver === 'each' ? '' : DRIVER_WORDS[one.driver],
  per: perWords(one),
  whole: one.needsMinutes ? 'not said' : minutesInWords(plannedMinutes(one)),
  isFirst,
  isLast,
  focus: at.endsWith(`:${one.id}`) ? focusOf(at, isFirst, isLast) : '',
});

const perWords = (one: Operation): string =>
  one.driver === 'once' ? 'in all' : one.driver === 'each' ? 'each' : `a ${DRIVER_WORDS[one.driver]}`;

type Group = { stage: string; whole: string; rows: ReturnType<typeof rowOf>[] };

const groupsOf = (plan: MakingPlan, at: string, extraNumbers: ExtraNumbers): Group[] => {
  const byStage = planMinutes(plan).byStage;
  const groups: (Group & { key: Stage })[] = [];
  const headed = new Set<Stage>();
  plan.forEach((one, place) => {
    const row = rowOf(one, at, place === 0, place === plan.length - 1, extraNumbers.get(one.id));
    const last = groups.at(-1);
    if (last?.key === one.stage) last.rows.push(row);
    else {
      // A stage that is come back to is named again, its hours stand at the first.
      const whole = headed.has(one.stage) ? '' : minutesInWords(byStage[one.stage]);
      groups.push({ key: one.stage, stage: STAGE_WORDS[one.stage], whole, rows: [row] });
      headed.add(one.stage);
    }
  });
  return groups.map(({ stage, whole, rows }) => ({ stage, whole, rows }));
};

/** The numbers of the extras that put lines into a plan, by the line's key. */
export type ExtraNumbers = ReadonlyMap<string, number>;

/** Everything the plan's part of a job sheet shows. @param at which button had the focus: `up:<id>` */
export const planWords = (
  plan: MakingPlan,
  at: string,
  extraNumbers: ExtraNumbers = new Map(),
): Record<string, unknown> => {
  const sums = planMinutes(plan);
  return {
    isEmpty: plan.length === 0,
    groups: groupsOf(plan, at, extraNumbers),
    untimed: untimedInWords(sums.needMinutes),
    sums: sumsTable(plan),
    whole: minutesInWords(sums.minutes),
    count: countInWords(plan.length, 'operation'),
    rests: restsInWords(plan),
  };
};

/** How many of the times are not the maker's own yet. */
const restsInWords = (plan: MakingPlan): string => {
  const starting = plan.filter(({ fromStartingValues }) => fromStartingValues).length;
  if (starting === 0) return plan.length === 0 ? '' : 'Every time in it is your own.';
  return starting === plan.length
    ? 'All of its times are starting values; write your own over them.'
    : `${capitalised(countInWords(starting, 'time'))} of it ${starting === 1 ? 'is a starting value' : 'are starting values'}, ${plan.length - starting === 1 ? 'the other one is' : 'the others are'} your own.`;
};

const untimedInWords = (waiting: readonly Operation[]): string => {
  if (waiting.length === 0) return '';
  const named = waiting.slice(0, 4).map(({ name }) => `“${name}”`);
  const more = waiting.length - named.length;
  const words = listInWords(more > 0 ? [...named, `${more} more`] : named);
  return `Nobody has said yet how long ${words} ${waiting.length === 1 ? 'takes' : 'take'}; until then it counts as nought.`;
};

/** Planned time by stage and mode: the stages down, the modes across. */
const sumsTable = (plan: MakingPlan): object => {
  const { byMode, byStage, minutes, basting } = planMinutes(plan);
  const modes = MODES.filter((mode) => byMode[mode] > 0);
  const inCell = (stage: Stage, mode: (typeof MODES)[number]): number =>
    plan
      .filter((one) => one.stage === stage)
      .flatMap(minutesByMode)
      .filter((part) => part.mode === mode)
      .reduce((sum, part) => sum + part.minutes, 0);
  const time = (of: number): { text: string } => ({ text: of === 0 ? '' : minutesInWords(of) });
  return {
    caption: 'Planned time by stage and mode',
    columns: [
      { text: 'Stage' },
      ...modes.map((mode) => ({ text: capitalised(MODE_WORDS[mode]), figure: true })),
      { text: 'Together', figure: true },
    ],
    rows: STAGES.filter((stage) => byStage[stage] > 0).map((stage) => ({
      cells: [
        { text: STAGE_WORDS[stage] },
        ...modes.map((mode) => time(inCell(stage, mode))),
        time(byStage[stage]),
      ],
    })),
    foot: [
      {
        cells: [
          {
            text: 'The plan',
            ...(basting > 0 ? { note: `of it basting ${minutesInWords(basting)}` } : {}),
          },
          ...modes.map((mode) => time(byMode[mode])),
          time(minutes),
        ],
      },
    ],
  };
};
