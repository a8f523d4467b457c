import type { Commission } from '../../../domain/commissions/commission.js';
import type { ExtraWords } from '../../../domain/commissions/extra.js';
import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import { CAUSES, type Cause } from '../../../domain/costing/causes.js';
import type { Studio } from '../../../domain/house/studio.js';
import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import { MODE_WORDS, MODES, STAGE_WORDS, STAGES } from '../../../domain/making/mode.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm } from '../../../web/forms/form.js';
import type { Typed } from '../../../web/forms/typed.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyForField, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import { LINES, OUTS, WORK_FIELDS } from './extra.form.js';
import type { ExtraWorkedOut } from './work-out-extra.js';

type Drawn = { template: string; words: PageWords };

/** The garment an extra is for. */
export type ExtraPlace = {
  readonly studio: Studio;
  readonly commission: Commission;
  readonly planned: PlannedGarment;
  readonly known: readonly KnownOperation[];
};

const frameOf = ({ commission, planned: { garment } }: ExtraPlace) => {
  const url = garmentUrl(commission.id, garment.id);
  return {
    room: 'commissions' as const,
    crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
    at: `${url}/extras/new`,
    leave: { text: 'Back to the job sheet', href: url },
  };
};

const query = (fields: Record<string, string>): string => `?${new URLSearchParams(fields).toString()}`;

/** The first tap: why. */
export const causePage = (place: ExtraPlace): Drawn => {
  const frame = frameOf(place);
  return {
    template: 'commissions/extras/cause',
    words: {
      title: `Something other than planned: ${place.planned.garment.name}`,
      ...frame,
      causes: CAUSES.map((cause) => ({
        text: causeRule(cause).words,
        href: `${frame.at}${query({ cause })}`,
        follows: causeRule(cause).follows,
      })),
    },
  };
};

/** What follows from a cause that is no extra. */
export const noExtraPage = (place: ExtraPlace, cause: Cause): Drawn => {
  const { words, follows } = causeRule(cause);
  const { garment } = place.planned;
  return {
    template: 'commissions/extras/no-extra',
    words: {
      title: words,
      ...frameOf(place),
      follows,
      forgotten: cause === 'forgotten in the plan',
      cause,
      bench: '/bench',
      plan: `${garmentUrl(garment.commissionId, garment.id)}?at=add`,
    },
  };
};

/** The second tap: what. */
export const whatPage = (place: ExtraPlace, cause: Cause, typed: Typed, form?: FormModel): Drawn => {
  const { planned, known } = place;
  const frame = frameOf(place);
  const present = new Set(planned.plan.map(({ kind }) => kind));
  const offered = known.filter((one) => one.isAlternative && !present.has(one.kind)).slice(0, 12);
  const lines = [...planned.plan, ...planned.materials, ...planned.expenses];
  const values = Object.fromEntries(WORK_FIELDS.map((name) => [name, typed[name] ?? '']));
  return {
    template: 'commissions/extras/what',
    words: {
      title: causeRule(cause).words,
      ...frame,
      cause,
      follows: causeRule(cause).follows,
      form: {
        ...(form ?? freshForm('', { stage: 'make', mode: 'hand', ...filledIn(values) })),
        action: frame.at,
      },
      menu: offered.map(({ name, needsMinutes }) => ({
        text: name,
        href: needsMinutes
          ? `${frame.at}${query({ cause, 'lines.0.line': name, look: 'yes' })}#field-lines.0.minutes`
          : `${frame.at}${query({ cause, 'lines.0.line': name })}`,
      })),
      anyMenu: offered.length > 0,
      names: [...new Set(known.map(({ name }) => name))],
      lines: LINES.map((row) => ({
        line: `lines.${row}.line`,
        minutes: `lines.${row}.minutes`,
        first: row === 0,
      })),
      outs: OUTS.map((row) => ({
        name: `out.${row}`,
        label: row === 0 ? 'Left out for it' : 'And left out',
      })),
      inPlan: lines.map(({ id, name }) => ({ value: id, text: name })),
      anyInPlan: lines.length > 0,
      stages: STAGES.map((value) => ({ value, text: STAGE_WORDS[value] })),
      modes: MODES.map((value) => ({ value, text: capitalised(MODE_WORDS[value]) })),
      currency: place.studio.identity.currency,
    },
  };
};

const filledIn = (values: Record<string, string>): Record<string, string> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== ''));

/** The third: hours, price and day, before anybody agrees. */
export const offerPage = (
  place: ExtraPlace,
  cause: Cause,
  typed: Typed,
  { words, out }: { words: ExtraWords; out: ExtraWorkedOut },
  form?: FormModel,
): Drawn => {
  const { identity } = place.studio;
  const frame = frameOf(place);
  const { garment } = place.planned;
  const carried = Object.fromEntries(
    ['cause', ...WORK_FIELDS].flatMap((name) => (typed[name] ? [[name, typed[name]]] : [])),
  );
  const price = moneyForField(words.price, identity.locale);
  const fresh = freshForm('', { wording: words.wording, price, dueAfter: words.dueAfter ?? '' });
  return {
    template: 'commissions/extras/offer',
    words: {
      title: 'What it does to hours, price and day',
      ...frame,
      form: { ...(form ?? fresh), action: `${garmentUrl(garment.commissionId, garment.id)}/extras` },
      carried: Object.entries({ ...carried, cause }).map(([name, value]) => ({ name, value })),
      follows: causeRule(cause).follows,
      work: workInWords(words),
      told: toldOf(words, out, identity.locale),
      currency: identity.currency,
      priceHint: out.withTax ? 'With tax in it.' : 'Before tax.',
      again: { text: 'Change what it is', href: `${frame.at}${query({ ...carried, cause, look: 'yes' })}` },
    },
  };
};

const workInWords = ({ work }: ExtraWords): { text: string; isOut: boolean }[] =>
  [...work.operations, ...work.materials, ...work.expenses].map(({ sign, line }) => ({
    text: line.name,
    isOut: sign === -1,
  }));

const signed = (out: ExtraWorkedOut): string => {
  const minutes = wholeMinutes(out.minutes.abs());
  const words = minutesInWords(minutes);
  return out.minutes.isNegative() && minutes > 0 ? `${words} less` : `${words} more`;
};

/** Planned minutes it puts in, less those it takes out. */
const plannedIn = ({ work }: ExtraWords): string => {
  const minutes = work.operations.reduce((sum, { sign, line }) => sum + sign * plannedMinutes(line), 0);
  return minutes < 0 ? `planned ${minutesInWords(-minutes)} less` : `planned ${minutesInWords(minutes)}`;
};

const toldOf = (words: ExtraWords, out: ExtraWorkedOut, locale: string): object[] => [
  {
    label: 'Hours',
    text: signed(out),
    note: out.price ? `at 4 in 5; ${plannedIn(words)}` : 'as planned: there are no rates yet',
  },
  {
    label: 'Price',
    text: out.price
      ? moneyInWords(out.price, locale)
      : 'none: the studio does not know yet what an hour costs',
    ...(out.price ? { note: out.withTax ? 'with tax' : 'before tax' } : {}),
  },
  {
    label: 'Left to work',
    text: minutesInWords(wholeMinutes(out.left)),
    note: out.weekly
      ? `a week holds ${minutesInWords(wholeMinutes(out.weekly))}`
      : 'no rate card says what a week holds',
  },
  {
    label: 'Ready',
    text: out.dueAfter ? dateInWords(out.dueAfter) : 'no day was named',
    note: [
      ...(out.dueBefore ? [`${dateInWords(out.dueBefore)} was named`] : []),
      ...(out.done
        ? [
            `done by ${dateInWords(out.done.with)} (${dateInWords(out.done.without)} without it), were nothing else on the bench`,
          ]
        : []),
    ].join('; '),
  },
];
