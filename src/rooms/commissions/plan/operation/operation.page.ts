import type { Commission } from '../../../../domain/commissions/commission.js';
import type { Garment } from '../../../../domain/commissions/garment.js';
import { Decimal } from '../../../../domain/kernel/decimal.js';
import type { HandPace } from '../../../../domain/lessons/hand-paces.js';
import { handStitching } from '../../../../domain/making/hand-stitching.js';
import {
  DRIVER_WORDS,
  DRIVERS,
  MODE_WORDS,
  MODES,
  STAGE_WORDS,
  STAGES,
} from '../../../../domain/making/mode.js';
import { type Operation, plannedMinutes } from '../../../../domain/making/operation.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import type { PageWords } from '../../../../web/reply.js';
import { capitalised, countInWords } from '../../../../web/words/counts.js';
import { minutesInWords } from '../../../../web/words/durations.js';
import { commissionCrumbs, garmentUrl } from '../../commission.page.js';
import { minutesEachForField } from '../minutes-each.js';

const options = <T extends string>(values: readonly T[], words: Readonly<Record<T, string>>) =>
  values.map((value) => ({ value, text: capitalised(words[value]) }));

/** All that can be said about one operation. */
export const operationPage = (
  form: FormModel,
  commission: Commission,
  garment: Garment,
  one: Operation,
  paces: readonly HandPace[],
): { template: string; words: PageWords } => {
  const url = garmentUrl(commission.id, garment.id);
  return {
    template: 'commissions/plan/operation',
    words: {
      title: one.name,
      room: 'commissions',
      crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
      form: { ...form, action: `${url}/plan/${one.id}` },
      now: one.needsMinutes
        ? 'Nobody has said yet how long it takes.'
        : `Planned: ${minutesInWords(plannedMinutes(one))}.`,
      seam: seamInWords(one),
      pace: paceInWords(paces.find(({ kind }) => kind === one.kind)),
      stages: options(STAGES, STAGE_WORDS),
      modes: options(MODES, MODE_WORDS),
      shares: MODES.map((mode) => ({ name: `share-${mode}`, label: capitalised(MODE_WORDS[mode]) })),
      sharesOpen: one.modeShares.length > 0 || form.errors.some(({ field }) => field.startsWith('share-')),
      drivers: DRIVERS.map((value) => ({ value, text: DRIVER_WORDS[value] })),
      leave: { text: 'Leave as it is', href: `${url}#plan` },
    },
  };
};

/** What the workroom's own closed garments say of the pace of such work; threading is in it already. */
const paceInWords = (pace: HandPace | undefined): string =>
  pace
    ? `Your own pace at this is ${new Decimal((pace.typical / 60).toFixed(1)).toFixed()} stitches a minute, threading included, from ${countInWords(pace.garments, 'closed garment')}. With this pace leave the thread empty.`
    : '';

const seamInWords = ({ handStitch }: Operation): string => {
  if (!handStitch) return '';
  const { stitches, threadChanges, minutes } = handStitching(handStitch);
  const threads = handStitch.thread ? ` and ${countInWords(threadChanges, 'thread')}` : '';
  return `${stitches.toDecimalPlaces(0).toNumber().toLocaleString('en')} stitches${threads}: ${minutesEachForField(minutes.toDecimalPlaces(1))} min.`;
};
