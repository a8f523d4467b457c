import { z } from 'zod';
import type { Outworker, OutworkTicket } from '../../../domain/outwork/outwork.js';
import { date, line, optionalDate, optionalLine, optionalLines, whole } from '../../../web/fields/fields.js';
import type { FieldKit } from '../../../web/fields/kits.js';
import { moneyForField } from '../../../web/words/amounts.js';

const MOST_RATES = 60;
export const RATE_FIELDS = ['work', 'price'];

/** A person or firm that takes work out; lines of rates left empty are left out. */
export const OutworkerFields = (kit: FieldKit) =>
  z.strictObject({
    name: line('Give a name.', 200),
    reachedAt: optionalLine(200),
    notes: optionalLines(2000),
    rates: z
      .array(
        z.strictObject({
          work: line('Name the kind of work.', 100),
          price: kit.money('What is one piece paid?'),
        }),
        'Give a list of piece rates.',
      )
      .max(MOST_RATES, `At most ${MOST_RATES} piece rates.`)
      .default([]),
  });

const aboutWork = {
  work: line('Which work?', 100),
  pieces: whole(1, 9999, 'How many pieces?').default(1),
  outOn: date('On which day did it go out?'),
  dueOn: optionalDate(),
  notes: optionalLines(1000),
};
const outworker = () => line('Choose who takes it.', 60);
const garment = () => line('Choose the garment.', 60);

/** A piece of work that goes out. Without a piece rate it is paid by the outworker's own list. */
export const OutworkFields = (kit: FieldKit) =>
  z.strictObject({
    outworker: outworker(),
    garment: garment(),
    ...aboutWork,
    pieceRate: kit.optionalMoney(),
  });

/** The same from a hand that sees no prices: the list says the rate. */
export const PlainOutworkFields = z
  .strictObject({ outworker: outworker(), garment: garment(), ...aboutWork })
  .transform((said) => ({ ...said, pieceRate: undefined }));
export type OutworkSaid = z.output<ReturnType<typeof OutworkFields>>;

/** What is corrected later: neither the outworker nor the garment. */
export const CorrectedFields = (kit: FieldKit) =>
  z.strictObject({ ...aboutWork, pieceRate: kit.optionalMoney() });
export const PlainCorrectedFields = z
  .strictObject(aboutWork)
  .transform((said) => ({ ...said, pieceRate: undefined }));
export type OutworkCorrected = z.output<ReturnType<typeof CorrectedFields>>;

export const BackFields = z.strictObject({ backOn: date('On which day did it come back?') });
export const CheckedFields = z.strictObject({
  checkedOn: date('On which day was it checked?'),
  found: optionalLine(400),
});

export const typedOutworker = (kept: Outworker, locale: string): Record<string, string> => ({
  name: kept.name,
  reachedAt: kept.reachedAt,
  notes: kept.notes,
  ...Object.fromEntries(
    kept.rates.flatMap(({ work, price }, place) => [
      [`rates.${place}.work`, work],
      [`rates.${place}.price`, moneyForField(price, locale)],
    ]),
  ),
});

export const typedTicket = (kept: OutworkTicket, locale: string, seesPrices: boolean) => ({
  work: kept.work,
  pieces: String(kept.pieces),
  outOn: kept.outOn,
  dueOn: kept.dueOn ?? '',
  notes: kept.notes,
  ...(seesPrices ? { pieceRate: moneyForField(kept.pieceRate, locale) } : {}),
});
