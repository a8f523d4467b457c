/** A number of places at one table: whoever comes when all are taken waits, first come first served. */
export class Places {
  private readonly waiting: (() => void)[] = [];
  private taken = 0;

  constructor(private readonly count: number) {}

  get areAllFree(): boolean {
    return this.taken === 0;
  }

  async take(): Promise<void> {
    if (this.taken < this.count) {
      this.taken += 1;
      return;
    }
    await new Promise<void>((seated) => this.waiting.push(seated));
  }

  leave(): void {
    const next = this.waiting.shift();
    if (next) next();
    else this.taken -= 1;
  }
}
