import { z } from 'zod';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import { PRICE_LIST_SORTS, type PriceListLine } from '../../../domain/pricing/price-list-line.js';
import { line, oneOf } from '../../../web/fields/fields.js';
import { type FieldKit, sentKit, typedAs, typedKit } from '../../../web/fields/kits.js';
import { readHours } from '../../../web/fields/typed-hours.js';
import { type MoneyManner, moneyForField } from '../../../web/words/amounts.js';
import type { LineSaid } from './change-price-list.js';

const MOST_HOURS = 1000;
const MISSING = 'Write the hours it takes, such as 0.4 or 25 min.';

const fields = (kit: FieldKit, hours: z.ZodType<Decimal>) =>
  z
    .strictObject({
      sort: oneOf(PRICE_LIST_SORTS, 'Choose what kind of work this is.'),
      name: line('Name the job.', 200),
      hours,
      trimmings: kit.optionalMoney(),
      ownPrice: kit.optionalMoney(),
    })
    .transform(
      ({ trimmings, ownPrice, ...said }): LineSaid => ({
        ...said,
        trimmings: trimmings?.isZero() ? undefined : trimmings,
        ownPrice,
      }),
    );

const typedHours = typedAs(
  (typed) => readHours(typed, MOST_HOURS, 'A job takes more than 0 hours.'),
  MISSING,
);

/** A line as a form says it. */
export const LineTyped = (manner: MoneyManner) =>
  fields(typedKit(manner), typedHours as unknown as z.ZodType<Decimal>);

/** A line as a program sends it. */
export const LineSent = (currency: string) => {
  const kit = sentKit(currency);
  const hours = kit.number('Send the hours as a decimal such as "0.4".', { most: MOST_HOURS });
  return fields(
    kit,
    hours.refine((value) => value.gt(0), 'A job takes more than 0 hours.'),
  );
};

export const typedLine = (kept: PriceListLine, locale: string): Record<string, string> => ({
  sort: kept.sort,
  name: kept.name,
  hours: kept.hours.toDecimalPlaces(4).toFixed(),
  trimmings: kept.trimmings ? moneyForField(kept.trimmings, locale) : '',
  ownPrice: kept.ownPrice ? moneyForField(kept.ownPrice, locale) : '',
});
