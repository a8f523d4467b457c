type Ended = { code: number; output: string };
export const stillSteps: { name: string; run: () => Promise<Ended> | Ended }[];
