import { DIRECTION_WORDS } from '../../../domain/fitting/correction.js';
import { FITTING_KIND_WORDS, FITTING_STATE_WORDS, type Fitting } from '../../../domain/fitting/fitting.js';
import type { Link } from '../../../printing/templates/page-model.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised, countInWords, listInWords } from '../../../web/words/counts.js';
import { dateInWords, dayInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { commissionCrumbs, commissionUrl, garmentUrl } from '../commission.page.js';
import { fittingSubject } from './keep-fitting.js';
import type { FittingsTold, FittingTold } from './tell-fitting.js';

export const fittingsUrl = (commissionId: string): string => `${commissionUrl(commissionId)}/fittings`;
export const fittingUrl = ({ commissionId, id }: Pick<Fitting, 'commissionId' | 'id'>): string =>
  `${fittingsUrl(commissionId)}/${id}`;

export const fittingsCrumbs = ({ commission }: Pick<FittingsTold, 'commission'>): Link[] => [
  ...commissionCrumbs(commission),
  { text: 'Fittings', href: fittingsUrl(commission.id) },
];

/** `Baste fitting, 3 March 2026` */
export const fittingName = ({ kind, on }: Pick<Fitting, 'kind' | 'on'>): string =>
  `${capitalised(FITTING_KIND_WORDS[kind])}, ${dateInWords(on)}`;

const stateOf = ({ state, on }: Fitting, today: string): string =>
  state === 'planned' && on < today ? 'planned, not yet said how it went' : FITTING_STATE_WORDS[state];

const namesOf = (fitting: Fitting, garments: ReadonlyMap<string, string>): string =>
  capitalised(listInWords(fitting.garmentIds.flatMap((id) => garments.get(id) ?? [])));

/** Fittings as a table, by day. @param garments their names; '' leaves that column out */
export const fittingsTable = (
  fittings: readonly Fitting[],
  garments: ReadonlyMap<string, string> | undefined,
  today: string,
): object => ({
  caption: 'Fittings',
  columns: [
    { text: 'Fitting' },
    { text: 'When' },
    ...(garments ? [{ text: 'Garments' }] : []),
    { text: 'Stands' },
  ],
  rows: fittings.map((fitting) => ({
    cells: [
      { text: capitalised(FITTING_KIND_WORDS[fitting.kind]), href: fittingUrl(fitting) },
      { text: `${dateInWords(fitting.on)}, ${fitting.at}` },
      ...(garments ? [{ text: namesOf(fitting, garments) }] : []),
      { text: stateOf(fitting, today), ...(fitting.reason ? { note: fitting.reason } : {}) },
    ],
  })),
});

const garmentNames = ({ garments }: FittingsTold): Map<string, string> =>
  new Map(garments.map(({ id, name }) => [id, name]));

/** All fittings of a commission. */
export const fittingsPage = (told: FittingsTold): PageWords => ({
  title: `Fittings, ${told.commission.number}`,
  room: 'commissions',
  crumbs: commissionCrumbs(told.commission),
  any: told.fittings.length > 0,
  fittings: fittingsTable(told.fittings, garmentNames(told), told.today),
  plan: { text: 'Plan a fitting', href: `${fittingsUrl(told.commission.id)}/new` },
});

/**
 * One fitting: when, who, what it showed, and what comes of it.
 *
 * @param may whether an address is open to who looks: a maker without prices is led to no closed door
 */
export const fittingPage = (told: FittingTold, may: (href: string) => boolean): PageWords => {
  const { fitting, corrections, commission } = told;
  const url = fittingUrl(fitting);
  const isHeld = fitting.state === 'held';
  return {
    title: fittingName(fitting),
    room: 'commissions',
    crumbs: fittingsCrumbs(told).filter(({ href }) => href !== undefined && may(href)),
    url,
    lead: `${dayInWords(fitting.on)} at ${fitting.at}, ${minutesInWords(fitting.minutes)}: ${stateOf(fitting, told.today)}.`,
    facts: factsOf(told, may),
    anyCorrections: corrections.length > 0,
    corrections: correctionsTable(told),
    isPlanned: fitting.state === 'planned',
    isHeld,
    noCorrections: isHeld && corrections.length === 0,
    notes: `${url}/notes.pdf`,
    photos: may('/photos') && {
      text: told.photos === 0 ? 'Photographs' : capitalised(countInWords(told.photos, 'photograph')),
      href: `/photos?of=${fittingSubject(fitting)}`,
    },
    history: may('/history') && `/history?about=${fittingSubject(fitting)}`,
    again: {
      text: 'Plan another',
      href: `${fittingsUrl(commission.id)}/new?like=${fitting.id}`,
    },
  };
};

const factsOf = (
  { fitting, garments, fittings, patterns, commission, children }: FittingTold,
  may: (href: string) => boolean,
): object[] => {
  const next = fittings.find(({ id }) => id === fitting.nextId);
  const before = fittings.find(({ nextId }) => nextId === fitting.id);
  return [
    ...garments
      .filter(({ id }) => fitting.garmentIds.includes(id))
      .map(({ id, name, place }) => ({
        label: `Garment ${place}`,
        text: capitalised(name),
        ...(may(garmentUrl(commission.id, id)) ? { href: garmentUrl(commission.id, id) } : {}),
        ...(patterns.has(id) ? { note: `pattern ${patterns.get(id)?.number}` } : {}),
      })),
    { label: 'Present', text: fitting.present },
    {
      label: 'Guardian',
      text: fitting.guardian || (children.length > 0 ? 'to be present and named' : ''),
    },
    { label: 'Worn', text: fitting.worn },
    { label: 'Pattern', text: fitting.patternChanged ? fitting.patternWords : '' },
    { label: 'Why', text: fitting.reason },
    { label: 'Notes', text: fitting.notes },
    ...(before ? [{ label: 'After', text: fittingName(before), href: fittingUrl(before) }] : []),
    ...(next ? [{ label: 'Next', text: fittingName(next), href: fittingUrl(next) }] : []),
  ].filter(({ text }) => text !== '');
};

const correctionsTable = (told: FittingTold): object => {
  const names = garmentNames(told);
  return {
    caption: 'Corrections',
    columns: [{ text: 'Place' }, { text: 'Garment' }, { text: 'What to do' }, { text: 'By', figure: true }],
    rows: told.corrections.map((one) => ({
      cells: [
        { text: one.place },
        { text: capitalised(names.get(one.garmentId) ?? '') },
        { text: DIRECTION_WORDS[one.direction] },
        { text: one.amount },
      ],
    })),
  };
};
