import { z } from 'zod';
import type { Accent } from '../../../printing/templates/page-model.js';
import { line, oneOf, optionalLine, optionalLines } from '../../../web/fields/fields.js';
import type { Section } from './section.js';

const ACCENTS = ['madder', 'indigo', 'bottle', 'walnut', 'slate'] as const satisfies readonly Accent[];
const INKS: Record<Accent, string> = {
  madder: 'Madder, a red',
  indigo: 'Indigo, a blue',
  bottle: 'Bottle, a green',
  walnut: 'Walnut, a brown',
  slate: 'Slate, a grey',
};

/** Who the house is, as its letterhead says it. */
export const identity: Section = {
  path: 'identity',
  title: 'Name and letterhead',
  summary: ({ identity: { name, address } }) => [name, address.split('\n')[0]].filter(Boolean).join(', '),
  values: ({ identity: said, tax, sheet, accent }) => ({
    name: said.name,
    maker: said.maker,
    address: said.address,
    country: said.country,
    email: said.email,
    phone: said.phone,
    website: said.website,
    companyNumber: tax.companyNumber,
    sheet,
    accent,
  }),
  schema: (_, studio) =>
    z
      .strictObject({
        name: line('Give the studio its name, as it stands on the door.', 200),
        maker: line('Say who makes.', 200),
        address: optionalLines(1000),
        country: optionalLine(100),
        email: optionalLine(254).refine(
          (text) => text === '' || /^\S+@\S+$/.test(text),
          'An email address has an @ in it.',
        ),
        phone: optionalLine(60),
        website: optionalLine(254),
        companyNumber: optionalLine(60),
        sheet: oneOf(['A4', 'Letter']),
        accent: oneOf(ACCENTS),
      })
      .transform(({ companyNumber, sheet, accent, ...said }) => ({
        ...studio,
        identity: { ...studio.identity, ...said },
        tax: { ...studio.tax, companyNumber },
        sheet,
        accent,
      })),
  words: () => ({
    sheets: [
      { value: 'A4', text: 'A4' },
      { value: 'Letter', text: 'Letter' },
    ],
    accents: ACCENTS.map((value) => ({ value, text: INKS[value] })),
  }),
};
