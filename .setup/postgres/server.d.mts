export function findPostgres(): string | null;
export function ensurePostgres(manner: { say: (line: string) => void }): Promise<string>;
export function startPostgres(programs: string): Promise<{ url: string; stop: () => Promise<unknown> }>;
