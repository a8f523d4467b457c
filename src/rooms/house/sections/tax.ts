import { z } from 'zod';
import { Trouble } from '../../../domain/kernel/errors.js';
import { oneOf } from '../../../web/fields/fields.js';
import { TAX_CAUTION, taxChoices } from '../choices.js';
import { taxFields, taxOf } from '../tax-said.js';
import type { Section } from './section.js';

/** How the house stands towards tax on sales. */
export const tax: Section = {
  path: 'tax',
  title: 'Tax',
  summary: ({ tax: said }) =>
    said.registered
      ? `Registered, ${said.taxNumber}; ${said.category} at ${said.rate.toFixed()} %`
      : said.reason || 'Not registered',
  values: ({ tax: said }, show) => ({
    registered: show.yesNo(said.registered),
    taxNumber: said.taxNumber,
    category: said.category,
    rate: show.number(said.rate),
    reason: said.reason,
    pricesInclude: said.pricesInclude,
  }),
  schema: (kit, studio) =>
    z
      .strictObject({ ...taxFields(kit), pricesInclude: oneOf(['none', 'tax']).default('none') })
      .transform(({ pricesInclude, ...said }, ctx) => {
        try {
          const { companyNumber } = studio.tax;
          return { ...studio, tax: taxOf(said, { companyNumber, pricesInclude }) };
        } catch (trouble) {
          if (!(trouble instanceof Trouble)) throw trouble;
          for (const { field, text } of trouble.fields)
            ctx.addIssue({ code: 'custom', path: [field], message: text });
          return z.NEVER;
        }
      }),
  words: () => ({
    taxes: taxChoices(),
    keeping: [
      { value: 'none', text: 'without tax' },
      { value: 'tax', text: 'with tax in them' },
    ],
    caution: TAX_CAUTION,
  }),
};
