type Reading = { files: number; wrong: { rule: string; sentence: string }[] };
export const rules: string[];
export function readDirection(folder?: string): Promise<Reading>;
export function readPlanted(files: Record<string, string>): Promise<Reading>;
