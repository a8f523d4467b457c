import { isBackupDue } from '../../domain/house/backup/backup-standing.js';
import { copiesToKeep } from '../../domain/house/backup/copies-to-keep.js';
import type { Clock } from '../clock.js';
import type { Backups } from './backups.js';

/** Milliseconds after the start before the first look, so that opening is not slowed, and between looks. */
const FIRST = 30_000;
const EVERY = 600_000;

/** While the server runs: one copy a day, the old ones taken away by rule. A copy made by hand is never taken away. */
export class DailyRound {
  private timers: NodeJS.Timeout[] = [];
  private looking: Promise<void> = Promise.resolve();

  /** @param failed is told of what went wrong; the next look tries again */
  constructor(
    private readonly backups: Backups,
    private readonly clock: Clock,
    private readonly zone: () => Promise<string>,
    private readonly failed: (error: unknown) => void,
  ) {}

  begin(first = FIRST, every = EVERY): void {
    const look = () => void this.look();
    this.timers = [setTimeout(look, first).unref(), setInterval(look, every).unref()];
  }

  /** Ends it; a copy that is being made is made first. */
  async end(): Promise<void> {
    for (const timer of this.timers) clearInterval(timer);
    await this.looking;
  }

  /** Makes the copy of the day where there is none yet, and takes away what need not be kept. Never throws. */
  look(): Promise<void> {
    this.looking = this.looking.then(() => this.lookNow()).catch(this.failed);
    return this.looking;
  }

  private async lookNow(): Promise<void> {
    const zone = await this.zone();
    const copies = async () => (await this.backups.list()).filter(({ daily }) => daily);
    const there = await copies();
    if (
      !isBackupDue(
        there.map(({ madeAt }) => madeAt),
        this.clock.now(),
        zone,
      )
    )
      return;
    await this.backups.make(true);
    // Only after a good new one: while copies fail, none is taken away.
    const all = await copies();
    const kept = copiesToKeep(all, zone);
    for (const { name } of all) if (!kept.has(name)) await this.backups.remove(name);
    await this.backups.clearUnfinished();
  }
}
