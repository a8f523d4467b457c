import { likeliestOperations } from '../../../domain/bench/likeliest.js';
import { isOpen, STANDING_WORDS } from '../../../domain/commissions/garment-mark.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import { CAUSES } from '../../../domain/costing/causes.js';
import { MODE_WORDS, MODES, STAGE_WORDS, STAGES } from '../../../domain/making/mode.js';
import { type Operation, plannedMinutes } from '../../../domain/making/operation.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import type { SignedIn } from '../../../web/visit.js';
import { mayGo } from '../../../web/who-may.js';
import { capitalised } from '../../../web/words/counts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { benchCrumb, clockCrumb, forPerson, whoseWords } from './bench.page.js';
import { clockWords } from './clock-now.page.js';
import { type GarmentSoFar, garmentSoFar } from './clock-told.js';
import { type Tap, type Tapping, tapping } from './tap.js';

/** A garment as the pages of the bench head it. */
export const garmentHead = async (reading: Reading, visit: SignedIn, id: string) => {
  const garment = await garmentBook.one(reading, id);
  const { number } = await commissionBook.one(reading, garment.commissionId);
  const standing = await garmentMarkBook.standing(reading, id);
  const job = `/commissions/${garment.commissionId}/garments/${id}`;
  return {
    garment,
    standing,
    words: {
      place: String(garment.place),
      name: capitalised(garment.name),
      commission: number,
      job: mayGo(visit, 'GET', job) ? job : '',
    },
  };
};

const timeNote = (worked: number, planned: number): string => {
  if (worked === 0) return planned > 0 ? minutesInWords(planned) : 'no time planned';
  return planned > 0 ? `${minutesInWords(worked)} of ${minutesInWords(planned)}` : minutesInWords(worked);
};

const operationTap = (
  operation: Operation,
  garmentId: string,
  { worked }: GarmentSoFar,
  taps: Tapping,
): Tap =>
  taps.start(
    operation.name,
    `Start ${operation.name}`,
    { garment: garmentId, operation: operation.id },
    { note: timeNote(worked.get(operation.id) ?? 0, plannedMinutes(operation)) },
  );

const stageTaps = (garmentId: string, { plan, worked }: GarmentSoFar, taps: Tapping): Tap[] =>
  STAGES.flatMap((stage) => {
    const lines = plan.filter((line) => line.stage === stage);
    if (lines.length === 0) return [];
    const planned = lines.reduce((sum, line) => sum + plannedMinutes(line), 0);
    const sofar = lines.reduce((sum, { id }) => sum + (worked.get(id) ?? 0), 0);
    return [
      taps.start(
        STAGE_WORDS[stage],
        `Start the whole stage ${STAGE_WORDS[stage]}`,
        { garment: garmentId, stage },
        { note: timeNote(sofar, planned) },
      ),
    ];
  });

/** One garment at the bench: what is likeliest next, whole stages, every operation, and what is not in the plan. */
export const garmentPage = async (
  reading: Reading,
  clock: Clock,
  visit: SignedIn,
  id: string,
  personId = '',
): Promise<PageWords> => {
  const { garment, standing, words } = await garmentHead(reading, visit, id);
  const { other, personName } = await whoseWords(reading, visit, personId);
  const soFar = await garmentSoFar(reading, id);
  const taps = tapping(visit, clock.now(), other);
  const { finished, leftOut } = soFar.soFar;
  const at = `/bench/garments/${id}`;
  return {
    title: `${words.name}, ${words.commission}`,
    room: 'bench',
    crumbs: [benchCrumb, clockCrumb],
    ...words,
    hand: personName,
    clock: await clockWords(reading, clock, visit, personId),
    open: isOpen(standing),
    standing: STANDING_WORDS[standing],
    planned: soFar.plan.length > 0,
    likeliest: likeliestOperations(soFar.plan, soFar.soFar).map((one) =>
      operationTap(one, garment.id, soFar, taps),
    ),
    stages: stageTaps(garment.id, soFar, taps),
    operations: soFar.plan
      .filter((one) => !leftOut.has(one.id))
      .map((one) => {
        const tap = operationTap(one, garment.id, soFar, taps);
        return finished.has(one.id) ? { ...tap, note: `finished, ${tap.note}` } : tap;
      }),
    links: [
      { text: 'Not in the plan', href: forPerson(`${at}/departure`, other) },
      { text: 'Forgotten: add time', href: forPerson(`/bench/time?garment=${id}`, other) },
      { text: 'Making sheet', href: forPerson(`${at}/sheet`, other) },
      { text: 'Time on this garment', href: `${at}/entries` },
    ],
  };
};

/** Work that is not in the plan: what it is, and why it came up, which is the button that starts it. */
export const departurePage = async (
  reading: Reading,
  clock: Clock,
  visit: SignedIn,
  id: string,
  personId = '',
  form?: FormModel,
): Promise<{ template: string; words: PageWords }> => {
  const { words } = await garmentHead(reading, visit, id);
  const { other, personName } = await whoseWords(reading, visit, personId);
  const at = forPerson(`/bench/garments/${id}/departure`, other);
  const tap = tapping(visit, clock.now(), other).start('', 'Start work that is not in the plan', {
    garment: id,
  });
  return {
    template: 'bench/clock/departure',
    words: {
      title: `Not in the plan: ${words.name}`,
      room: 'bench',
      crumbs: [
        benchCrumb,
        clockCrumb,
        { text: `${words.name}, ${words.commission}`, href: `/bench/garments/${id}` },
      ],
      ...words,
      hand: personName,
      form: { ...(form ?? freshForm('', { mode: 'hand' })), action: at },
      tap,
      modes: MODES.map((mode) => ({ value: mode, text: capitalised(MODE_WORDS[mode]) })),
      causes: CAUSES.map((cause) => {
        const { words: text, follows } = causeRule(cause);
        return { cause, text, follows, everyTime: cause === 'own choice' && visit.role === 'owner' };
      }),
    },
  };
};
