export function fillKillable(
  ask: (method: string, path: string, body?: unknown) => Promise<{ status: number; json: any }>,
): Promise<{ garment: string; material: string; bought: number }>;
