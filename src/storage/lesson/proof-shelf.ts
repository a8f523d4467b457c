import type { Backtest } from '../../domain/estimating/proof/backtest.js';
import { isQuick, proveAside, proveHere, type ToFit } from './fit-aside.js';

/** What the proof says now. */
export type ProofSoFar = {
  /** The last one that was worked out; none while the first is. */
  readonly proof: Backtest | undefined;
  /** False while a newer one is being worked out. */
  readonly isCurrent: boolean;
};

/** The proof of one database's lesson, kept in memory for one version of the closed garments, worked out beside the requests. */
export class ProofShelf {
  private kept: { readonly key: string; readonly proof: Backtest } | undefined;
  private proving: { readonly key: string; readonly done: Promise<void> } | undefined;

  /** @param key changes with everything the proof depends on */
  async present(key: string, ask: () => Promise<ToFit>): Promise<ProofSoFar> {
    if (this.kept?.key !== key && this.proving === undefined) {
      const asked = await ask();
      if (isQuick(asked)) this.kept = { key, proof: proveHere(asked) };
      else this.begin(key, asked);
    }
    return { proof: this.kept?.proof, isCurrent: this.kept?.key === key };
  }

  /** Waits until nothing is being proved. */
  async idle(): Promise<void> {
    await this.proving?.done;
  }

  /** One at a time: a newer history waits for its next reader. A proof that fails is tried again by that reader. */
  private begin(key: string, asked: ToFit): void {
    if (this.proving) return;
    const done = proveAside(asked)
      .then((proof) => {
        this.kept = { key, proof };
      })
      .catch(() => undefined)
      .finally(() => {
        this.proving = undefined;
      });
    this.proving = { key, done };
  }
}
