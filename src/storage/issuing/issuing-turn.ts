import type { DataSource } from 'typeorm';

/**
 * Whose turn it is to issue a paper of a series. A number is foreseen, printed and kept in one turn, so that no one else
 * takes it meanwhile and nothing is printed twice: within one server by a queue, between servers on one PostgreSQL by a lock
 * that a connection holds. A server that dies loses its connection, and with it the turn.
 *
 * The turn saves paper, not truth: what is kept is compared with what was printed all the same.
 */
export class IssuingTurn {
  private readonly last = new Map<string, Promise<unknown>>();

  constructor(private readonly source: DataSource) {}

  /** Runs the work when every earlier turn of the series has ended, well or badly. */
  run<T>(series: string, work: () => Promise<T>): Promise<T> {
    const mine = () => this.alone(series, work);
    const turn = (this.last.get(series) ?? Promise.resolve()).then(mine, mine);
    const quiet = turn.catch(() => undefined);
    this.last.set(series, quiet);
    void quiet.then(() => {
      if (this.last.get(series) === quiet) this.last.delete(series);
    });
    return turn;
  }

  /** Only one waits here per series and server, so the waiting never takes the last connection of the pool. */
  private async alone<T>(series: string, work: () => Promise<T>): Promise<T> {
    if (this.source.options.type !== 'postgres') return work();
    const held = this.source.createQueryRunner();
    try {
      await held.query('SELECT pg_advisory_lock(hashtext($1))', [`turn ${series}`]);
      try {
        return await work();
      } finally {
        await held.query('SELECT pg_advisory_unlock(hashtext($1))', [`turn ${series}`]);
      }
    } finally {
      await held.release();
    }
  }
}
