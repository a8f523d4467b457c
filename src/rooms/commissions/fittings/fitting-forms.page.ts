import { type Correction, DIRECTION_WORDS, DIRECTIONS } from '../../../domain/fitting/correction.js';
import {
  FITTING_KIND_WORDS,
  FITTING_KINDS,
  type Fitting,
  type FittingKind,
  USUAL_FITTING,
} from '../../../domain/fitting/fitting.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { gridRows, rowsTyped } from '../../../web/forms/closed-up.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised } from '../../../web/words/counts.js';
import { minutesForField } from '../../../web/words/durations.js';
import { lengthForField } from '../../../web/words/lengths.js';
import { CORRECTION_FIELDS } from './fitting.form.js';
import { fittingName, fittingsCrumbs, fittingsUrl, fittingUrl } from './fitting.page.js';
import type { FittingsTold, FittingTold } from './tell-fitting.js';

type Drawn = { template: string; words: PageWords };

const KINDS = FITTING_KINDS.map((value) => ({ value, text: capitalised(FITTING_KIND_WORDS[value]) }));
const MORE_ROWS = 6;

/** The kind that usually follows; common practice, no source. */
const AFTER: Readonly<Record<FittingKind, FittingKind>> = {
  toile: 'baste',
  baste: 'forward',
  forward: 'finish',
  finish: 'finish',
};

/** A new fitting's form: of the garment asked for, or all; after the last one that was held. */
export const newFittingForm = (told: FittingsTold, garmentId: string, likeId: string): FormModel => {
  const like = told.fittings.find(({ id }) => id === likeId);
  const last = told.fittings.filter(({ state }) => state === 'held').at(-1);
  const chosen = like
    ? like.garmentIds
    : told.garments.filter(({ id }) => garmentId === '' || id === garmentId).map(({ id }) => id);
  return freshForm('', {
    kind: like ? like.kind : last ? AFTER[last.kind] : 'baste',
    minutes: minutesForField(like?.minutes ?? USUAL_FITTING),
    ...Object.fromEntries(chosen.map((id) => [`garment.${id}`, 'yes'])),
  });
};

/** The form that plans a fitting, or moves one. */
export const planPage = (told: FittingsTold, form: FormModel, fitting?: Fitting): Drawn => ({
  template: 'commissions/fittings/plan',
  words: {
    title: fitting ? `Change: ${fittingName(fitting)}` : 'Plan a fitting',
    room: 'commissions',
    crumbs: [
      ...fittingsCrumbs(told),
      ...(fitting ? [{ text: fittingName(fitting), href: fittingUrl(fitting) }] : []),
    ],
    form: { ...form, action: fitting ? fittingUrl(fitting) : fittingsUrl(told.commission.id) },
    kinds: KINDS,
    garments: told.garments.map(({ id, name, place }) => ({
      name: `garment.${id}`,
      label: `${place}. ${capitalised(name)}`,
    })),
    leave: {
      text: 'Leave without saving',
      href: fitting ? fittingUrl(fitting) : fittingsUrl(told.commission.id),
    },
  },
});

const correctionTyped = ({ garmentId, place, direction, amount }: Correction): Record<string, string> => ({
  garmentId,
  place,
  direction,
  amount: lengthForField({ typed: amount, mm: '', unit: 'cm', shown: amount }),
});

/** What is kept of a fitting as the fields of the form in which it is written. */
export const typedHeld = ({ fitting, corrections, children, today }: FittingTold): Record<string, string> => {
  const isNew = fitting.state !== 'held';
  return {
    on: isNew && fitting.on > today ? today : fitting.on,
    present: fitting.present,
    worn: fitting.worn,
    guardian: fitting.guardian || (isNew ? (children[0]?.guardian ?? '') : ''),
    notes: fitting.notes,
    patternChanged: fitting.patternChanged ? 'yes' : '',
    patternWords: fitting.patternWords,
    ...rowsTyped('corrections', corrections.map(correctionTyped)),
  };
};

/** The form of a held fitting: who was there, what was worn, the correction table, the next date. */
export const holdPage = (told: FittingTold, form: FormModel): Drawn => {
  const { fitting, garments, patterns } = told;
  const own = garments.filter(({ id }) => fitting.garmentIds.includes(id));
  const filled = Object.keys(form.values).filter((name) => /^corrections\.\d+\.place$/.test(name)).length;
  const several = own.length > 1;
  const fields = several ? CORRECTION_FIELDS : CORRECTION_FIELDS.filter((name) => name !== 'garmentId');
  const numbers = [...patterns.values()].map(({ number }) => number);
  return {
    template: 'commissions/fittings/hold',
    words: {
      title: `${fitting.state === 'held' ? 'Correct' : 'How it went'}: ${fittingName(fitting)}`,
      room: 'commissions',
      crumbs: [...fittingsCrumbs(told), { text: fittingName(fitting), href: fittingUrl(fitting) }],
      form: { ...form, action: `${fittingUrl(fitting)}/hold` },
      ofChild: told.children.length > 0 || fitting.guardian !== '',
      example: told.lengthUnit === 'cm' ? '6 mm' : '1/4 in',
      grid: {
        caption: 'Corrections',
        columns: [
          ...(several
            ? [
                {
                  text: 'Garment',
                  options: own.map(({ id, name }) => ({ value: id, text: capitalised(name) })),
                },
              ]
            : []),
          { text: 'Place', wide: true },
          {
            text: 'What to do',
            options: DIRECTIONS.map((value) => ({ value, text: capitalised(DIRECTION_WORDS[value]) })),
          },
          { text: 'By how much', figure: true },
        ],
        rows: gridRows('corrections', fields, filled, MORE_ROWS),
      },
      patternHint:
        numbers.length > 0
          ? `Stands then as the last correction of ${numbers.join(', ')}.`
          : 'No pattern of these garments is on a hook yet; the words stay with the fitting.',
      mayPlanNext: fitting.nextId === undefined,
      kinds: KINDS,
      keep: fitting.state === 'held' ? 'Keep' : 'It was held',
      leave: { text: 'Leave without saving', href: fittingUrl(fitting) },
    },
  };
};

/** The form that says that a fitting was missed or put off. */
export const notHeldPage = (told: FittingTold, form: FormModel): Drawn => ({
  template: 'commissions/fittings/not-held',
  words: {
    title: `Not held: ${fittingName(told.fitting)}`,
    room: 'commissions',
    crumbs: [...fittingsCrumbs(told), { text: fittingName(told.fitting), href: fittingUrl(told.fitting) }],
    form: { ...form, action: `${fittingUrl(told.fitting)}/not-held` },
    states: [
      { value: 'missed', text: 'Missed', hint: 'Nobody came.' },
      { value: 'put-off', text: 'Put off', hint: 'It was agreed beforehand.' },
    ],
    kinds: KINDS,
    leave: { text: 'Leave without saving', href: fittingUrl(told.fitting) },
  },
});

/** The next kind that is offered beside the next date. */
export const nextKind = ({ kind, state }: Fitting): FittingKind => (state === 'held' ? kind : AFTER[kind]);
