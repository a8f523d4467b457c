/*
 * The papers of the bench as words, ready to print. They lie about and travel to outworkers: the client stands on them
 * by their code, and no price does.
 */

/** What stands at the head of each. '' is not shown. */
export type BenchHead = {
  readonly language: string;
  readonly studio: string;
  /** The garment's place in its commission: the large number. */
  readonly number: string;
  readonly garment: string;
  readonly commission: string;
  readonly clientCode: string;
};

/** A label with what stands for it. */
export type BenchFact = { readonly label: string; readonly text: string };

/** The docket that hangs on a garment: one A6. */
export type Docket = BenchHead & {
  readonly facts: readonly BenchFact[];
  /** What is to be done next, the first of them first. */
  readonly next: readonly { readonly name: string; readonly time: string }[];
  /** How many more there are beyond those, in words. */
  readonly more: string;
};

/** The plan with room to write start and stop: A5. */
export type MakingSheet = BenchHead & {
  readonly facts: readonly BenchFact[];
  readonly stages: readonly {
    readonly name: string;
    readonly operations: readonly {
      readonly name: string;
      readonly note: string;
      readonly planned: string;
      /** Said instead of the empty columns: "finished". */
      readonly state: string;
    }[];
  }[];
  readonly total: string;
};

/** Fitting notes: A4. '' and [] leave lines to write on. */
export type FittingNotes = BenchHead & {
  readonly kind: string;
  readonly facts: readonly BenchFact[];
  readonly corrections: readonly {
    readonly garment: string;
    readonly place: string;
    readonly direction: string;
    readonly amount: string;
  }[];
  readonly notes: readonly string[];
  /** Empty rows below the corrections. */
  readonly spareRows: number;
  readonly next: string;
};
