import { z } from 'zod';
import type { Client } from '../../domain/clients/client.js';
import { PAPER_LANGUAGES } from '../../domain/house/paper-choices.js';
import type { ClientWords } from '../../storage/books/client-book.js';
import { line, oneOf, optionalDate, optionalLine, optionalLines, yesNo } from '../../web/fields/fields.js';

/** What is said about a client: the same fields on the page and in the JSON interface. */
export const ClientFields = z
  .strictObject({
    name: line('Give the client’s name.', 400),
    address: optionalLines(1000),
    country: optionalLine(100),
    email: optionalLine(254).refine(
      (text) => text === '' || /^\S+@\S+$/.test(text),
      'An email address has an @ in it.',
    ),
    phone: optionalLine(60),
    taxNumber: optionalLine(40),
    notes: optionalLines(4000),
    isChild: yesNo(),
    birthDate: optionalDate(),
    guardian: optionalLine(400),
    paperLanguage: oneOf(['', ...PAPER_LANGUAGES]).default(''),
  })
  .refine((said) => !said.isChild || said.guardian !== '', {
    path: ['guardian'],
    message: 'Name the guardian who will be present; a child is never measured alone.',
  })
  .transform((said): ClientWords => ({ ...said, birthDate: said.birthDate }));

/** A client as a form's fields. */
export const typedClient = (client: ClientWords | Client): Record<string, string> => ({
  name: client.name,
  address: client.address,
  country: client.country,
  email: client.email,
  phone: client.phone,
  taxNumber: client.taxNumber,
  notes: client.notes,
  isChild: client.isChild ? 'yes' : '',
  birthDate: client.birthDate ?? '',
  guardian: client.guardian,
  paperLanguage: client.paperLanguage ?? '',
});
