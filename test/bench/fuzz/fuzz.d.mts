/** What the fuzz found. */
export type Fuzzed = {
  asked: number;
  forms: number;
  statuses: Record<string, number>;
  slowest: { ms: number; asked: string };
  faults: { asked: string; fault: string; body: string; answer: string }[];
};

export function fuzz(studio: {
  address: string;
  document: unknown;
  pages: readonly string[];
  keys: Record<string, Record<string, string>>;
  renew: (who: string) => Promise<Record<string, string>>;
  count: number;
  seed: number;
}): Promise<Fuzzed>;
