import { AsyncLocalStorage } from 'node:async_hooks';
import type { DataSource, EntityManager } from 'typeorm';
import { GuardedDatabase } from './connection/guarded-sqlite.js';
import type { Reading } from './session.js';
import { writesEnded } from './writes-ended.js';

/** What pages read from: on SQLite a second, read-only connection, so that they never see a write that has not ended. */
export class ReadSide implements Reading {
  private readonly answers = new Map<string, unknown>();
  private asOf: number | undefined;
  private recent: { version: Promise<number>; writes: number; at: number } | undefined;
  private readonly visits = new AsyncLocalStorage<{ version?: Promise<number> | undefined }>();

  constructor(private readonly source: DataSource) {}

  get manager(): EntityManager {
    return this.source.manager;
  }

  /**
   * Answers from memory as long as nothing at all was written, by this program or by another. Asking SQLite whether
   * something was costs a tenth of reading a row through TypeORM. PostgreSQL has no such number, so there it reads.
   */
  async kept<T>(name: string, read: () => Promise<T>): Promise<T> {
    const version = await this.versionForVisit();
    if (version === undefined) return read();
    if (version !== this.asOf) {
      this.answers.clear();
      this.asOf = version;
    }
    if (this.answers.has(name)) return this.answers.get(name) as T;
    const answer = await read();
    // A write that ended meanwhile may have come before or after this answer: then it is not kept.
    if (version === this.asOf && this.answers.size < MOST_ANSWERS) this.answers.set(name, answer);
    return answer;
  }

  /** Runs a visit that only looks: for all of it, SQLite is asked once whether anything was written before it. */
  looking(visit: () => void): void {
    this.visits.run({}, visit);
  }

  /**
   * A number that is the same as long as nothing at all was written. Asked again inside a write, the same number says that
   * everything read since then still stands. None on PostgreSQL.
   */
  moment(): Promise<number | undefined> {
    return this.version() ?? Promise.resolve(undefined);
  }

  private versionForVisit(): Promise<number> | undefined {
    const visit = this.visits.getStore();
    if (!visit) return this.version();
    visit.version ??= this.recentVersion();
    return visit.version;
  }

  /**
   * Pages that are looked at in quick succession share one question to SQLite, unless this program wrote in between: what
   * another program wrote to the same file shows within a blink.
   */
  private recentVersion(): Promise<number> | undefined {
    const now = performance.now();
    const { recent } = this;
    if (recent && recent.writes === writesEnded.count && now - recent.at < BLINK) return recent.version;
    const version = this.version();
    this.recent = version && { version, writes: writesEnded.count, at: now };
    return version;
  }

  /** A number that differs whenever another connection has written since it was last asked for. */
  private version(): Promise<number> | undefined {
    const { databaseConnection } = this.source.driver as { databaseConnection?: unknown };
    return databaseConnection instanceof GuardedDatabase ? databaseConnection.othersWrote() : undefined;
  }
}

const MOST_ANSWERS = 500;
/** Milliseconds. */
const BLINK = 20;
