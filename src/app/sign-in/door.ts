import { Injectable } from '@nestjs/common';
import { isEasilyGuessed } from '../../domain/house/passphrase.js';
import { Invalid, NotAllowed } from '../../domain/kernel/errors.js';
import { type Account, accountBook } from '../../storage/books/account-book.js';
import { personBook } from '../../storage/books/bench/person-book.js';
import { phoneBook } from '../../storage/books/house/phone-book.js';
import { Clock } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import { SIGN_IN_DAYS } from '../../storage/sweep.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { EASY } from '../../web/fields/new-passphrase.js';
import { log } from '../../web/log.js';
import { SESSION } from '../../web/manners/session-cookie.js';
import type { SignedIn } from '../../web/visit.js';
import { GuessThrottle } from './guess-throttle.js';
import { hashPassphrase, isPassphrase, newCode, newSecret, secretHash } from './secrets.js';

export const COOKIE = SESSION;
/** A browser stays signed in for so many days, or fewer when unused. */
export const COOKIE_DAYS = SIGN_IN_DAYS.most;
const UNUSED_DAYS = SIGN_IN_DAYS.unused;
const DAY = 86_400_000;
/** A paired phone that lies unused for so long must be paired anew. */
export const PHONE_UNUSED_DAYS = 90;
/** Its cookie is kept as long as browsers keep one. */
export const PHONE_COOKIE_DAYS = 400;

/** Who comes in, and how. */
@Injectable()
export class Door {
  /** Opens the first start; made anew at each start, printed in the terminal, never stored. */
  readonly setupCode = newCode();
  private owned = false;
  private decoy: Promise<string> | undefined;

  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly throttle: GuessThrottle,
  ) {}

  /** Has the studio an owner yet? */
  async isOwned(): Promise<boolean> {
    if (!this.owned) this.owned = await accountBook.any(this.read);
    return this.owned;
  }

  /** The first start: makes the owner. @throws NotAllowed when the code is wrong or there is an owner already */
  async openHouse(code: string, name: string, passphrase: string, address: string): Promise<string> {
    if (await this.isOwned()) throw new NotAllowed('This studio has an owner already. Sign in instead.');
    this.throttle.guess(`from ${address}`);
    if (code.trim().toUpperCase().replaceAll(' ', '') !== this.setupCode) {
      throw Invalid.field(
        'code',
        'This is not the code printed in the terminal where the program was started.',
      );
    }
    this.throttle.wasRight(`from ${address}`);
    await this.addOwner(name, passphrase);
    return this.signIn(name, passphrase, address);
  }

  /** Adds the owner's account. */
  async addOwner(name: string, passphrase: string): Promise<string> {
    const passphraseHash = await hashPassphrase(passphrase);
    const { value } = await this.unit.write({ who: { id: 'first-start', name } }, async (writing) => {
      if (await accountBook.any(writing))
        throw new NotAllowed('This studio has an owner already. Sign in instead.');
      const id = writing.newId();
      await accountBook.open(writing, { id, name, role: 'owner', passphraseHash });
      writing.says('Opened the studio', 'house');
      return id;
    });
    return value;
  }

  /** @returns the secret for the cookie @throws Invalid when name or passphrase are wrong; Trouble 429 while throttled */
  async signIn(name: string, passphrase: string, address: string): Promise<string> {
    const from = `from ${address}`;
    const whos = [from, `as ${name.normalize('NFKC').trim().toLowerCase()}`];
    this.throttle.guess(...(this.throttle.isKnown(whos) ? [from] : whos));
    const account = await accountBook.named(this.read, name);
    // An unknown name takes as long as a wrong passphrase, so that names cannot be found out by the time it takes.
    this.decoy ??= hashPassphrase('no account has this passphrase');
    const right = await isPassphrase(passphrase, account?.passphraseHash ?? (await this.decoy));
    if (!account || !right) {
      // Not what was typed as a name: people type their passphrase there by mistake.
      log.warn({ address, ...(account ? { account: account.id } : {}) }, 'a sign-in was refused');
      throw Invalid.field('passphrase', 'Name or passphrase are not right.');
    }
    log.info({ address, account: account.id }, 'signed in');
    this.throttle.wasRight(...whos);
    this.throttle.know(whos);
    const secret = newSecret();
    await this.unit.aside((manager) =>
      accountBook.begin({ manager }, secretHash(secret), account.id, this.clock.now()),
    );
    return secret;
  }

  async byCookie(secret: string): Promise<SignedIn | undefined> {
    const hash = secretHash(secret);
    const session = await accountBook.signedIn(this.read, hash);
    if (!session) return this.byPhone(hash);
    const now = this.clock.ticks();
    const unused = now - Date.parse(session.seenAt);
    if (unused > UNUSED_DAYS * DAY || now - Date.parse(session.begunAt) > COOKIE_DAYS * DAY) {
      await this.unit.aside((manager) => accountBook.end({ manager }, hash));
      return undefined;
    }
    if (unused > DAY / 24)
      await this.unit.aside((manager) => accountBook.seen({ manager }, hash, this.clock.now()));
    return { ...(await this.handOf(session.account)), sessionId: hash };
  }

  async byToken(secret: string): Promise<SignedIn | undefined> {
    const found = await accountBook.byToken(this.read, secretHash(secret));
    return found && { ...(await this.handOf(found.account)), tokenId: found.tokenId };
  }

  async signOut(visit: SignedIn): Promise<void> {
    const { sessionId } = visit;
    if (sessionId) await this.unit.aside((manager) => accountBook.end({ manager }, sessionId));
  }

  /** Changes one's own passphrase and signs out every other browser. @throws Invalid when the present one is wrong */
  async changePassphrase(visit: SignedIn, present: string, wanted: string): Promise<void> {
    const whose = `passphrase of ${visit.who.id}`;
    this.throttle.guess(whose);
    const account = await accountBook.named(this.read, visit.who.name);
    if (!account || !(await isPassphrase(present, account.passphraseHash)))
      throw Invalid.field('present', 'This is not your present passphrase.');
    this.throttle.wasRight(whose);
    if (isEasilyGuessed(wanted, [visit.who.name])) throw Invalid.field('wanted', EASY);
    const passphraseHash = await hashPassphrase(wanted);
    await this.unit.write(visit, async (writing) => {
      await accountBook.changePassphrase(writing, account.id, passphraseHash);
      writing.says('Changed the passphrase', `account/${account.id}`);
    });
    await this.unit.aside((manager) => accountBook.endOthers({ manager }, account.id, visit.sessionId ?? ''));
  }

  /** Makes a token for a program. @returns its secret, which is shown once and kept hashed */
  async makeToken(visit: SignedIn, name: string): Promise<{ id: string; secret: string }> {
    const secret = newSecret();
    const { value } = await this.unit.write(visit, async (writing) => {
      const token = { accountId: visit.who.id, name, secretHash: secretHash(secret) };
      const id = await accountBook.addToken(writing, token);
      writing.says(`Made an API token for ${name}`, `token/${id}`);
      return id;
    });
    return { id: value, secret };
  }

  async revokeToken(visit: SignedIn, id: string, seen?: number): Promise<string | undefined> {
    const { act } = await this.unit.write(visit, async (writing) => {
      const name = await accountBook.revokeToken(writing, id, seen);
      writing.says(`Revoked the API token for ${name}`, `token/${id}`);
    });
    return act;
  }

  async signOutEverywhere(visit: SignedIn): Promise<void> {
    await this.unit.aside((manager) => accountBook.endAll({ manager }, visit.who.id));
  }

  /** A phone that was paired: it stays so until it is revoked or nobody used it for three months. */
  private async byPhone(hash: string): Promise<SignedIn | undefined> {
    const phone = await phoneBook.bySecret(this.read, hash);
    if (!phone) return undefined;
    const unused = this.clock.ticks() - Date.parse(phone.seenAt);
    if (unused > PHONE_UNUSED_DAYS * DAY) return undefined;
    if (unused > DAY / 24)
      await this.unit.aside((manager) => phoneBook.seen({ manager }, phone.id, this.clock.now()));
    const account = await accountBook.one(this.read, phone.accountId);
    return { ...(await this.handOf(account)), phoneId: phone.id };
  }

  private async handOf(account: Account): Promise<SignedIn> {
    const seesPrices =
      account.role === 'owner' || Boolean((await personBook.ofAccount(this.read, account.id))?.seesPrices);
    return { who: { id: account.id, name: account.name }, role: account.role, seesPrices };
  }
}
