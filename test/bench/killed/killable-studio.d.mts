export function fillKillable(
  ask: (method: string, path: string, body?: unknown) => Promise<{ status: number; json: any }>,
): Promise<{
  client: string;
  garment: string;
  material: string;
  bought: number;
  thread: { id: string; bought: number };
}>;
