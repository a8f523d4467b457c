import { IsNull, Not } from 'typeorm';
import type { Role } from '../../domain/bench/person.js';
import type { Instant } from '../../domain/kernel/calendar-date.js';
import { Conflict, NotFound } from '../../domain/kernel/errors.js';
import { AccountRow } from '../rows/house/account.row.js';
import { ApiTokenRow } from '../rows/house/api-token.row.js';
import { SignInSessionRow } from '../rows/house/sign-in-session.row.js';
import { keptIn, type Reading, type Writing } from '../session.js';

export type Account = {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly passphraseHash: string;
};
export type SignedInBrowser = {
  readonly account: Account;
  readonly begunAt: Instant;
  readonly seenAt: Instant;
};
export type ApiToken = {
  readonly id: string;
  readonly name: string;
  readonly madeAt: Instant;
  readonly version: number;
};

const fold = (name: string): string => name.normalize('NFKC').trim().toLowerCase();

const accountOf = (row: AccountRow): Account => ({
  id: row.id,
  name: row.name,
  role: row.role as Role,
  passphraseHash: row.passphrase_hash,
});

/** Who may come in: accounts, browsers that are signed in, and tokens of programs. Secrets are kept hashed only. */
export const accountBook = {
  async any(reading: Reading): Promise<boolean> {
    return (await reading.manager.count(AccountRow, { take: 1 })) > 0;
  },

  async named(reading: Reading, name: string): Promise<Account | undefined> {
    const row = await reading.manager.findOneBy(AccountRow, { name_folded: fold(name) });
    return row ? accountOf(row) : undefined;
  },

  async open(writing: Writing, account: Account): Promise<void> {
    await writing.insertForGood(AccountRow, {
      id: account.id,
      name: account.name.trim(),
      name_folded: fold(account.name),
      role: account.role,
      passphrase_hash: account.passphraseHash,
    });
  },

  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Account> {
    return keptIn(reading, `account ${id}`, async () => {
      const row = await reading.manager.findOneBy(AccountRow, { id });
      if (!row) throw new NotFound('account');
      return accountOf(row);
    });
  },

  /** Renames somebody, or gives them another role. */
  async correct(writing: Writing, id: string, words: { name: string; role: Role }): Promise<void> {
    await writing.update(AccountRow, id, {
      name: words.name.trim(),
      name_folded: fold(words.name),
      role: words.role,
    });
  },

  async changePassphrase(writing: Writing, id: string, passphraseHash: string): Promise<void> {
    await writing.update(AccountRow, id, { passphrase_hash: passphraseHash });
  },

  async signedIn(reading: Reading, secretHash: string): Promise<SignedInBrowser | undefined> {
    return keptIn(reading, `signed in ${secretHash}`, async () => {
      const session = await reading.manager.findOneBy(SignInSessionRow, { id: secretHash });
      if (!session) return undefined;
      const account = await reading.manager.findOneBy(AccountRow, { id: session.account_id });
      return account
        ? { account: accountOf(account), begunAt: session.begun_at, seenAt: session.seen_at }
        : undefined;
    });
  },

  async begin(reading: Reading, secretHash: string, accountId: string, at: Instant): Promise<void> {
    await reading.manager.insert(SignInSessionRow, {
      id: secretHash,
      account_id: accountId,
      begun_at: at,
      seen_at: at,
    });
  },

  async seen(reading: Reading, secretHash: string, at: Instant): Promise<void> {
    await reading.manager.update(SignInSessionRow, { id: secretHash }, { seen_at: at });
  },

  async end(reading: Reading, secretHash: string): Promise<void> {
    await reading.manager.delete(SignInSessionRow, { id: secretHash });
  },

  /** Ends every sign-in of an account but one. */
  async endOthers(reading: Reading, accountId: string, kept: string): Promise<void> {
    await reading.manager.delete(SignInSessionRow, { account_id: accountId, id: Not(kept) });
  },

  async endAll(reading: Reading, accountId: string): Promise<void> {
    await reading.manager.delete(SignInSessionRow, { account_id: accountId });
  },

  async countSignedIn(reading: Reading, accountId: string): Promise<number> {
    return reading.manager.countBy(SignInSessionRow, { account_id: accountId });
  },

  async byToken(
    reading: Reading,
    secretHash: string,
  ): Promise<{ account: Account; tokenId: string } | undefined> {
    return keptIn(reading, `token ${secretHash}`, async () => {
      const token = await reading.manager.findOneBy(ApiTokenRow, {
        secret_hash: secretHash,
        revoked_at: IsNull(),
      });
      const account = token && (await reading.manager.findOneBy(AccountRow, { id: token.account_id }));
      return token && account ? { account: accountOf(account), tokenId: token.id } : undefined;
    });
  },

  /** Tokens that still open the door; of one account, or all. */
  async tokens(reading: Reading, accountId?: string): Promise<ApiToken[]> {
    const rows = await reading.manager.find(ApiTokenRow, {
      where: { revoked_at: IsNull(), ...(accountId ? { account_id: accountId } : {}) },
      order: { id: 'ASC' },
    });
    return rows.map(({ id, name, made_at, version }) => ({ id, name, madeAt: made_at, version }));
  },

  async addToken(
    writing: Writing,
    token: { accountId: string; name: string; secretHash: string },
  ): Promise<string> {
    const id = writing.newId();
    await writing.insertForGood(ApiTokenRow, {
      id,
      account_id: token.accountId,
      name: token.name,
      secret_hash: token.secretHash,
      made_at: writing.at,
      revoked_at: null,
    });
    return id;
  },

  /** @throws NotFound; Conflict when it is revoked already, so that the moment it ended stands; Stale */
  async revokeToken(writing: Writing, id: string, seen?: number): Promise<string> {
    const token = await writing.manager.findOneBy(ApiTokenRow, { id });
    if (!token) throw new NotFound('token');
    if (token.revoked_at !== null) throw new Conflict('This token is revoked already.', 'already-revoked');
    const row = await writing.update(ApiTokenRow, id, { revoked_at: writing.at }, seen ?? token.version);
    return row.name;
  },
};
