/** A folder of data, and what in it is written to. */
export type KilledStudio = {
  folder: string;
  token: string;
  garment: string;
  material: string;
  bought: number;
};

export function killAndLook(
  studio: KilledStudio,
  how: { times: number; seed: number },
): Promise<{ acknowledged: number; sentAgain: number; breaches: string[] }>;
