import { z } from 'zod';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { reelsFor, threadNeed } from '../../../domain/stock/need/thread-need.js';
import { STITCH_WORDS, type ThreadRatio } from '../../../domain/stock/need/thread-ratios.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { line } from '../../../web/fields/fields.js';
import { typedAs, typedKit } from '../../../web/fields/kits.js';
import { closedUp, gridRows } from '../../../web/forms/closed-up.js';
import { freshForm } from '../../../web/forms/form.js';
import { parse } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import type { PageWords } from '../../../web/reply.js';
import { decimalSignOf, numeralText } from '../../../web/words/numeral.js';
import { readPercent } from '../../../web/words/shares.js';
import { clothRoomCrumb } from '../cloth-room.page.js';
import { inWords, readQuantityIn } from '../stock-fields.js';

export const SEAM_FIELDS = ['ratio', 'length', 'times'];
const FAMILY_WORDS: Readonly<Record<string, string>> = {
  own: 'own',
  table: 'Carr & Latham',
  guide: 'Coats guide',
};

const keyOf = ({ family, stitch }: ThreadRatio): string => `${family}/${stitch}`;

/** The thread for seams as typed. @throws Invalid naming the seam at fault */
export const readThreadNeed = (
  typed: Typed,
  identity: StudioIdentity,
  ratios: readonly ThreadRatio[],
): { need: ReturnType<typeof threadNeed>; reels: number | undefined } => {
  const { rows, rest } = closedUp(typed, 'seams', ['ratio', 'length']);
  if (rows.length === 0) throw Invalid.field('seams.0.ratio', 'Write down at least one seam.');
  const length = (missing?: string) =>
    typedAs((text) => readQuantityIn(text, identity, identity.clothUnit), missing);
  const said = parse(
    z.object({
      seams: z.array(
        z.strictObject({
          ratio: line('Choose the stitch.', 20),
          length: length('How long is the seam?') as z.ZodType<Decimal>,
          times: z
            .string()
            .default('')
            .transform((text) => text.trim() || '1')
            .refine((text) => /^[1-9]\d{0,3}$/.test(text), 'A seam is sewn 1 to 9999 times.'),
        }),
      ),
      waste: typedAs((text) => readPercent(text, { most: 100 })),
      reel: length(),
    }),
    { seams: rows, waste: rest.waste ?? '', reel: rest.reel ?? '' },
  );
  const seams = said.seams.map((seam, place) => {
    const found = ratios.find((one) => keyOf(one) === seam.ratio);
    if (!found) throw Invalid.field(`seams.${place}.ratio`, 'There is no such ratio any more.');
    return { length: seam.length, times: new Decimal(seam.times), ratio: found.ratio };
  });
  const need = threadNeed(seams, said.waste ?? new Decimal(0));
  return { need, reels: said.reel ? reelsFor(need.withWaste, said.reel) : undefined };
};

/** The studio's own ratio as typed. */
export const RatioFields = (identity: StudioIdentity) =>
  z.strictObject({
    stitch: line('Which stitch type, by its number in ISO 4915?', 20).pipe(
      z.string().regex(/^\d{3}$/, 'A stitch type has three figures, such as 301.'),
    ),
    ratio: typedKit(identity)
      .number('How much thread for one length of seam?', { most: 500 })
      .refine((ratio) => ratio.gt(0), 'A seam takes some thread.'),
    source: line('Say where the figure comes from: measured on which cloth, or which book.', 400),
  });

/** How much thread, and the ratios it is reckoned by, each with its source. */
export const threadPage = (
  forms: { readonly seams: FormModel; readonly ratio: FormModel; readonly refused?: 'seams' | 'ratio' },
  ratios: readonly ThreadRatio[],
  identity: StudioIdentity,
  answered?: ReturnType<typeof readThreadNeed>,
): { template: string; words: PageWords } => {
  const { locale, clothUnit } = identity;
  const filled = Object.keys(forms.seams.values).filter((name) => /^seams\.\d+\.ratio$/.test(name)).length;
  const seams = { ...forms.seams, action: '/cloth-room/thread' };
  const ratio = { ...forms.ratio, action: '/cloth-room/thread/ratios', idPrefix: 'ratio-' };
  const sign = decimalSignOf(locale);
  const length = (amount: Decimal) => inWords(amount.toDecimalPlaces(2), clothUnit, locale);
  return {
    template: 'cloth-room/need/thread',
    words: {
      title: 'How much thread',
      room: 'cloth-room',
      crumbs: [clothRoomCrumb],
      ...(forms.refused ? { form: forms.refused === 'seams' ? seams : ratio } : {}),
      seams,
      ratio,
      unit: clothUnit,
      lead: answered
        ? `${length(answered.need.thread)} of thread, ${length(answered.need.withWaste)} with waste${answered.reels === undefined ? '' : `: ${answered.reels} reels`}.`
        : '',
      grid: {
        caption: 'Seams',
        columns: [
          {
            text: 'Stitch',
            options: ratios.map((one) => ({
              value: keyOf(one),
              text: `${one.stitch} ${STITCH_WORDS[one.stitch] ?? ''}, × ${numeralText(one.ratio, sign)} (${FAMILY_WORDS[one.family] ?? ''})`,
            })),
          },
          { text: 'Length', figure: true },
          { text: 'How often', figure: true },
        ],
        rows: gridRows('seams', SEAM_FIELDS, filled, filled === 0 ? 4 : 2),
      },
      ratios: {
        caption: 'Thread for one length of seam, by ISO 4915 stitch type',
        columns: [{ text: 'Stitch' }, { text: 'Ratio', figure: true }, { text: 'Source' }, { text: '' }],
        rows: ratios.map((one) => ({
          cells: [
            { text: one.stitch, note: STITCH_WORDS[one.stitch] ?? '' },
            { text: numeralText(one.ratio, sign) },
            { text: one.source },
            one.family === 'own'
              ? {
                  press: {
                    action: `/cloth-room/thread/ratios/${one.stitch}/drop`,
                    text: 'Take out',
                    label: `Take out our own ratio for ${one.stitch}`,
                    once: freshForm('').once,
                  },
                }
              : { text: '' },
          ],
        })),
      },
    },
  };
};
