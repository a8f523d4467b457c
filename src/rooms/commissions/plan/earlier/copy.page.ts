import type { Commission } from '../../../../domain/commissions/commission.js';
import type { Garment } from '../../../../domain/commissions/garment.js';
import type { Pattern } from '../../../../domain/fitting/pattern.js';
import type { MakingPlan } from '../../../../domain/making/making-plan.js';
import { MAKE_WORDS } from '../../../../domain/making/mode.js';
import { planMinutes } from '../../../../domain/making/plan-minutes.js';
import { commissionBook } from '../../../../storage/books/commission-book.js';
import { patternBook } from '../../../../storage/books/fitting/pattern-book.js';
import { garmentBook } from '../../../../storage/books/garment-book.js';
import { planBook } from '../../../../storage/books/plan-book.js';
import type { Reading } from '../../../../storage/session.js';
import { freshForm } from '../../../../web/forms/form.js';
import type { PageWords } from '../../../../web/reply.js';
import { capitalised, countInWords } from '../../../../web/words/counts.js';
import { minutesInWords } from '../../../../web/words/durations.js';
import { commissionCrumbs, garmentUrl } from '../../commission.page.js';

type Earlier = {
  readonly garment: Garment;
  readonly commission: Commission;
  readonly plan: MakingPlan;
  /** Its pattern, where it hangs on a hook and fits this wearer. */
  readonly pattern: Pattern | undefined;
};

const MOST = 20;

/** Garments whose plan can be taken over: of the same type, or those of commissions found by words. */
export const earlierGarments = async (
  reading: Reading,
  garment: Garment,
  asked: string,
): Promise<readonly Earlier[]> => {
  const found = asked
    ? await garmentsFound(reading, asked)
    : await garmentBook.ofType(reading, garment.typeId, MOST + 1);
  const earlier: Earlier[] = [];
  const patterns = await patternBook.ofGarments(
    reading,
    found.map(({ id }) => id),
  );
  for (const one of found.filter(({ id }) => id !== garment.id).slice(0, MOST)) {
    const plan = await planBook.of(reading, one.id);
    if (plan.length > 0)
      earlier.push({
        garment: one,
        commission: await commissionBook.one(reading, one.commissionId),
        plan,
        pattern: one.wearerId === garment.wearerId ? patterns.get(one.id) : undefined,
      });
  }
  return earlier;
};

const garmentsFound = async (reading: Reading, asked: string): Promise<Garment[]> => {
  const garments: Garment[] = [];
  for (const { id } of (await commissionBook.find(reading, asked, 10)).items)
    garments.push(...(await garmentBook.ofCommission(reading, id)));
  return garments;
};

/** The garments offered, each with the two ways of taking its plan over. */
export const copyPage = (
  commission: Commission,
  garment: Garment,
  asked: string,
  found: readonly Earlier[],
): PageWords => {
  const url = garmentUrl(commission.id, garment.id);
  const press = (from: Earlier, how: 'instead' | 'after', text: string) => ({
    press: {
      action: `${url}/plan/copy`,
      text,
      label: `${text}: the plan of the ${from.garment.name}, ${from.commission.number}`,
      once: freshForm('').once,
      values: { from: from.garment.id, how },
    },
  });
  const again = ({ garment: from, pattern, commission: { number } }: Earlier) =>
    pattern
      ? {
          press: {
            action: `${url}/pattern/same-again`,
            text: `Same again, from ${pattern.number}`,
            label: `Same again, without drafting: the ${from.name}, ${number}, from the pattern ${pattern.number}`,
            once: freshForm('').once,
            values: { from: from.id },
          },
        }
      : { text: '' };
  const anyPattern = found.some(({ pattern }) => pattern !== undefined);
  return {
    title: `An earlier plan for the ${garment.name}`,
    room: 'commissions',
    crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
    action: `${url}/plan/copy`,
    asked,
    any: found.length > 0,
    found: {
      caption: asked ? 'Found' : 'Of the same type, newest first',
      columns: [
        { text: 'Garment' },
        { text: 'Make' },
        { text: 'Plan' },
        { text: 'In its place' },
        { text: 'After it' },
        ...(anyPattern ? [{ text: 'With its pattern' }] : []),
      ],
      rows: found.map((one) => ({
        cells: [
          {
            text: one.garment.name,
            href: garmentUrl(one.commission.id, one.garment.id),
            note: `${one.commission.number} ${one.commission.title}`,
          },
          { text: capitalised(MAKE_WORDS[one.garment.make]) },
          {
            text: `${countInWords(one.plan.length, 'operation')}, ${minutesInWords(planMinutes(one.plan).minutes)}`,
          },
          press(one, 'instead', 'Put in place'),
          press(one, 'after', 'Put after'),
          ...(anyPattern ? [again(one)] : []),
        ],
      })),
    },
    leave: { text: 'Leave the plan as it is', href: url },
  };
};
