import { Injectable } from '@nestjs/common';
import { Invalid } from '../../../domain/kernel/errors.js';
import { accountBook } from '../../../storage/books/account-book.js';
import { phoneBook } from '../../../storage/books/house/phone-book.js';
import { Clock } from '../../../storage/clock.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import type { SignedIn } from '../../../web/visit.js';
import { GuessThrottle } from '../guess-throttle.js';
import { newCode, newSecret, secretHash } from '../secrets.js';

/** A code is good for so long. */
export const CODE_MINUTES = 10;

const WRONG = 'This code is not right, was used already, or is older than ten minutes. Ask for a new one.';

/** Lets phones in by a short code: laid ready at the desk, typed on the phone, spent at once. */
@Injectable()
export class Pairing {
  constructor(
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly throttle: GuessThrottle,
  ) {}

  /** @returns the code, shown once and kept hashed */
  async layCodeReady(visit: SignedIn, accountId: string): Promise<string> {
    const code = newCode();
    await this.unit.write(visit, async (writing) => {
      const { name } = await accountBook.one(writing, accountId);
      await phoneBook.layCodeReady(writing, secretHash(plain(code)), accountId);
      writing.says(`Laid a code ready for a phone of ${name}`, `account/${accountId}`);
    });
    return code;
  }

  /**
   * Lets a phone in.
   *
   * @returns the secret for its cookie
   * @throws Invalid when the code is wrong, spent or too old; Trouble 429 while throttled
   */
  async pair(code: string, phone: string, address: string): Promise<string> {
    this.throttle.guess(`from ${address}`, 'pairing codes');
    const secret = newSecret();
    const stranger = { who: { id: 'pairing', name: phone } };
    const { value: paired } = await this.unit.write(stranger, async (writing) => {
      const found = await phoneBook.spendCode(writing, secretHash(plain(code)));
      if (!found) return false;
      const { name } = await accountBook.one(writing, found.accountId);
      const age = this.clock.ticks() - Date.parse(found.madeAt);
      if (age < 0 || age > CODE_MINUTES * 60_000) {
        writing.says(`A code for a phone of ${name} ran out`, `account/${found.accountId}`);
        return false;
      }
      const { accountId } = found;
      await phoneBook.pair(writing, { accountId, name: phone, secretHash: secretHash(secret) });
      writing.says(`Paired ${phone} for ${name}`, `account/${accountId}`);
      return true;
    });
    if (!paired) throw Invalid.field('code', WRONG);
    this.throttle.wasRight(`from ${address}`, 'pairing codes');
    return secret;
  }

  async revoke(visit: SignedIn, id: string, seen?: number): Promise<string | undefined> {
    const { act } = await this.unit.write(visit, async (writing) => {
      const { name } = await phoneBook.revoke(writing, id, seen);
      writing.says(`Let ${name} in no more`, `phone/${id}`);
    });
    return act;
  }
}

/** The code as it is kept: its strokes and spaces are for reading only. */
const plain = (code: string): string => code.toUpperCase().replaceAll(/[^A-Z0-9]/g, '');
