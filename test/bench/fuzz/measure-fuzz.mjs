import { startChild } from '../child.mjs';

/** So many requests, drawn anew for another seed. */
const COUNT = Number(process.env.FUZZ_COUNT ?? 20_000);
const SEED = Number(process.env.FUZZ_SEED ?? 20_260_302);

/** Sends what nobody means to every operation, page and form of the demonstration studio. */
export async function measureFuzz() {
  const studio = await startChild('fuzz/fuzzed-studio.mjs', { args: [String(COUNT), String(SEED)] });
  try {
    const { asked, forms, statuses, slowest, faults } = await studio.ask('fuzz');
    for (const { asked: what, fault, body, answer } of faults.slice(0, 40))
      process.stdout.write(
        `  ${fault}\n    ${what}\n    ${body.slice(0, 300)}\n    ${answer.slice(0, 160)}\n`,
      );
    const said = Object.entries(statuses).map(([status, times]) => `${times} × ${status}`);
    return [
      {
        what: `faults in ${asked} hostile requests`,
        count: faults.length,
        note: `seed ${SEED}; ${forms} kinds of form; ${said.join(', ')}; a fault is 5xx, the program's inside told, or over 5 s`,
      },
      {
        what: 'slowest answer among them',
        ours: slowest.ms,
        within: 5000,
        note: `under load of other work; ${slowest.asked.slice(0, 80).replaceAll('|', '/')}`,
      },
    ];
  } finally {
    await studio.stop();
  }
}
