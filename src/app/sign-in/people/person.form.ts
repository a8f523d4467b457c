import { z } from 'zod';
import { ROLES, type Role } from '../../../domain/bench/person.js';
import { line, oneOf, yesNo } from '../../../web/fields/fields.js';
import { notOnesName, passphraseOrNone } from '../../../web/fields/new-passphrase.js';

export type PersonSaid = {
  readonly name: string;
  readonly role: Role;
  readonly seesPrices: boolean;
  readonly passphrase: string;
};

/** Somebody who works here. */
export const PersonFields = notOnesName(
  z.strictObject({
    name: line('Say who it is.', 100),
    role: oneOf(ROLES, 'Say what they do here.'),
    seesPrices: yesNo(),
    passphrase: passphraseOrNone(),
  }),
) satisfies z.ZodType<PersonSaid>;

/** A phone that asks to be let in. */
export const PairFields = z.strictObject({
  code: line('Type the code that is shown at the desk.', 40),
  phone: line('Give this phone a name, such as “Odalys’s phone”.', 60),
});
