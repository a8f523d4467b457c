import { loadavg } from 'node:os';

/** The value below which a share of the numbers lies. */
export const quantile = (numbers, share) => {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
};

export const median = (numbers) => {
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
};

/** Milliseconds that some work takes. */
export const timed = async (work) => {
  const from = performance.now();
  await work();
  return performance.now() - from;
};

/** Milliseconds of processor time that some work takes: what a core of its own would need. */
export const worked = (work) => {
  const from = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
};

/**
 * Runs every subject in turn, again and again, the order turned round each time: whatever else the machine does
 * falls on all of them alike.
 *
 * @param subjects name → work that answers with its own milliseconds
 * @returns name → milliseconds of every round but the first ones
 */
export async function interleaved(subjects, { rounds, warmUp = 0 }) {
  const names = Object.keys(subjects);
  const taken = Object.fromEntries(names.map((name) => [name, []]));
  for (let round = -warmUp; round < rounds; round += 1) {
    for (const name of round % 2 === 0 ? names : [...names].reverse()) {
      const time = await subjects[name]();
      if (round >= 0) taken[name].push(time);
    }
  }
  return taken;
}

export const load = () => loadavg()[0];
