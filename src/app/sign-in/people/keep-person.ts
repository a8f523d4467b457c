import { Injectable } from '@nestjs/common';
import type { Person } from '../../../domain/bench/person.js';
import { Conflict, Invalid, NotAllowed } from '../../../domain/kernel/errors.js';
import { accountBook } from '../../../storage/books/account-book.js';
import { clockBook } from '../../../storage/books/bench/clock-book.js';
import { personBook } from '../../../storage/books/bench/person-book.js';
import { phoneBook } from '../../../storage/books/house/phone-book.js';
import type { Writing } from '../../../storage/session.js';
import { type Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import type { SignedIn } from '../../../web/visit.js';
import { hashPassphrase } from '../secrets.js';
import type { PersonSaid } from './person.form.js';

/** No passphrase has this hash: whoever has none comes in by a paired phone only. */
const NO_PASSPHRASE = 'none';

const mustBeFree = async (writing: Writing, name: string, accountId?: string): Promise<void> => {
  const account = await accountBook.named(writing, name);
  const person = await personBook.named(writing, name);
  if ((account && account.id !== accountId) || (person && person.accountId !== accountId))
    throw Invalid.field('name', 'Somebody has this name already. Add a second name or a letter.');
};

/** People who work here: added, corrected, and let go. */
@Injectable()
export class People {
  constructor(private readonly unit: UnitOfWork) {}

  async add(visit: SignedIn, said: PersonSaid): Promise<Done<Person>> {
    const passphraseHash = said.passphrase ? await hashPassphrase(said.passphrase) : NO_PASSPHRASE;
    return this.unit.write(visit, async (writing) => {
      await personBook.mine(writing);
      await mustBeFree(writing, said.name);
      const accountId = writing.newId();
      await accountBook.open(writing, { id: accountId, name: said.name, role: said.role, passphraseHash });
      const person = await personBook.add(writing, {
        name: said.name,
        role: said.role,
        accountId,
        seesPrices: said.role === 'owner' || said.seesPrices,
        left: false,
      });
      writing.says(`Added ${said.name} as ${said.role}`, `person/${person.id}`);
      return person;
    });
  }

  /** @throws NotAllowed when nobody would be left to own the studio */
  async correct(visit: SignedIn, id: string, said: PersonSaid, seen?: number): Promise<Done<Person>> {
    const passphraseHash = said.passphrase ? await hashPassphrase(said.passphrase) : undefined;
    const done = await this.unit.write(visit, async (writing) => {
      const person = await personBook.one(writing, id);
      await mustBeFree(writing, said.name, person.accountId);
      if (person.role === 'owner' && said.role !== 'owner') await anotherOwner(writing, person);
      if (person.accountId) {
        await accountBook.correct(writing, person.accountId, said);
        if (passphraseHash) await accountBook.changePassphrase(writing, person.accountId, passphraseHash);
      }
      const { name, role } = said;
      const seesPrices = role === 'owner' || said.seesPrices;
      const corrected = await personBook.correct(writing, id, { ...person, name, role, seesPrices }, seen);
      writing.says(`Corrected what ${name} may do`, `person/${id}`);
      writing.forGood();
      return corrected;
    });
    if (passphraseHash && done.value.accountId) await this.signOutOf(done.value.accountId);
    return done;
  }

  /** They left: their minutes stay, their phones, browsers and programs are let in no more. */
  async letGo(visit: SignedIn, id: string, seen?: number): Promise<Done<Person>> {
    const done = await this.unit.write(visit, async (writing) => {
      const person = await personBook.one(writing, id);
      if (person.accountId === visit.who.id)
        throw new NotAllowed('You cannot let yourself go. Let another owner do it.');
      if (person.role === 'owner') await anotherOwner(writing, person);
      if (await clockBook.of(writing, id))
        throw new Conflict(`A clock still runs for ${person.name}. Stop it first.`, 'clock-runs');
      for (const phone of await phoneBook.all(writing))
        if (phone.accountId === person.accountId) await phoneBook.revoke(writing, phone.id);
      if (person.accountId) {
        await accountBook.changePassphrase(writing, person.accountId, NO_PASSPHRASE);
        for (const { id: token } of await accountBook.tokens(writing, person.accountId))
          await accountBook.revokeToken(writing, token);
      }
      const gone = await personBook.correct(writing, id, { ...person, left: true }, seen);
      writing.says(`${person.name} left the workroom`, `person/${id}`);
      writing.forGood();
      return gone;
    });
    if (done.value.accountId) await this.signOutOf(done.value.accountId);
    return done;
  }

  private signOutOf(accountId: string): Promise<void> {
    return this.unit.aside((manager) => accountBook.endAll({ manager }, accountId));
  }
}

const anotherOwner = async (writing: Writing, leaving: Person): Promise<void> => {
  const others = (await personBook.all(writing)).filter(
    ({ id, role, left }) => id !== leaving.id && role === 'owner' && !left,
  );
  if (others.length === 0) throw new NotAllowed('A studio needs an owner. Name another one first.');
};
