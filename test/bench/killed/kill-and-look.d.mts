/** A folder of data, and what in it is written to. */
export type KilledStudio = {
  folder: string;
  token: string;
  client: string;
  garment: string;
  material: string;
  bought: number;
  /** A material of which less was bought than is asked for. */
  thread: { id: string; bought: number };
};

export function killAndLook(
  studio: KilledStudio,
  how: { times: number; seed: number },
): Promise<{ acknowledged: number; sentAgain: number; breaches: string[] }>;
