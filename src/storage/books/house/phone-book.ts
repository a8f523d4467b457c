import { IsNull } from 'typeorm';
import type { Instant } from '../../../domain/kernel/calendar-date.js';
import { Conflict, NotFound } from '../../../domain/kernel/errors.js';
import { PairedPhoneRow } from '../../rows/house/paired-phone.row.js';
import { PairingCodeRow } from '../../rows/house/pairing-code.row.js';
import { keptIn, type Reading, type Writing } from '../../session.js';

export type PairedPhone = {
  readonly id: string;
  readonly version: number;
  readonly accountId: string;
  readonly name: string;
  readonly pairedAt: Instant;
  readonly seenAt: Instant;
};

/** Phones that were let in by a short code, and the codes that wait. Secrets are kept hashed only. */
export const phoneBook = {
  /** All that are paired, oldest first. */
  async all(reading: Reading): Promise<PairedPhone[]> {
    const rows = await reading.manager.find(PairedPhoneRow, {
      where: { revoked_at: IsNull() },
      order: { id: 'ASC' },
    });
    return rows.map(phoneOf);
  },

  async bySecret(reading: Reading, secretHash: string): Promise<PairedPhone | undefined> {
    return keptIn(reading, `phone ${secretHash}`, async () => {
      const row = await reading.manager.findOneBy(PairedPhoneRow, {
        secret_hash: secretHash,
        revoked_at: IsNull(),
      });
      return row ? phoneOf(row) : undefined;
    });
  },

  /** Notes that it was used, beside the history. */
  async seen(reading: Reading, id: string, at: Instant): Promise<void> {
    await reading.manager.update(PairedPhoneRow, { id }, { seen_at: at });
  },

  /** @throws NotFound; Conflict when it was revoked already; Stale */
  async revoke(writing: Writing, id: string, seen?: number): Promise<PairedPhone> {
    const row = await writing.manager.findOneBy(PairedPhoneRow, { id });
    if (!row) throw new NotFound('phone');
    if (row.revoked_at !== null) throw new Conflict('This phone was let go already.', 'already-revoked');
    writing.forGood();
    return phoneOf(await writing.update(PairedPhoneRow, id, { revoked_at: writing.at }, seen));
  },

  async layCodeReady(writing: Writing, codeHash: string, accountId: string): Promise<void> {
    await writing.insertForGood(PairingCodeRow, { id: codeHash, account_id: accountId, made_at: writing.at });
  },

  /**
   * Spends a code: whether or not it is still good, it is gone afterwards.
   *
   * @returns whose phone it lets in, and since when it lay ready; none when there is no such code
   */
  async spendCode(
    writing: Writing,
    codeHash: string,
  ): Promise<{ accountId: string; madeAt: Instant } | undefined> {
    const row = await writing.manager.findOneBy(PairingCodeRow, { id: codeHash });
    if (!row) return undefined;
    await writing.remove(PairingCodeRow, codeHash);
    return { accountId: row.account_id, madeAt: row.made_at };
  },

  async pair(
    writing: Writing,
    phone: { accountId: string; name: string; secretHash: string },
  ): Promise<PairedPhone> {
    return phoneOf(
      await writing.insertForGood(PairedPhoneRow, {
        id: writing.newId(),
        account_id: phone.accountId,
        name: phone.name,
        secret_hash: phone.secretHash,
        paired_at: writing.at,
        seen_at: writing.at,
        revoked_at: null,
      }),
    );
  },
};

const phoneOf = (row: PairedPhoneRow): PairedPhone => ({
  id: row.id,
  version: row.version,
  accountId: row.account_id,
  name: row.name,
  pairedAt: row.paired_at,
  seenAt: row.seen_at,
});
