/** Ten hours: what the studio's average is worth beside an operation's own recorded time. */
const WORTH = 600;

/**
 * How one kind of operation is shared between modes (hand, machine, press ...), from recorded minutes, drawn to the
 * studio's average as if ten hours of that average had been recorded too.
 *
 * @param recorded minutes recorded for this kind, by mode
 * @param average minutes recorded in the whole studio, or shares, by mode
 * @returns shares by mode, adding to 1; empty where nothing at all was recorded
 * @see test/reference/estimating/forgotten.test.ts
 */
export const modeShares = (
  recorded: Readonly<Record<string, number>>,
  average: Readonly<Record<string, number>>,
): Record<string, number> => {
  const whole = (minutes: Readonly<Record<string, number>>) =>
    Object.values(minutes).reduce((sum, value) => sum + Math.max(0, value), 0);
  const [own, studio] = [whole(recorded), whole(average)];
  const worth = studio > 0 ? WORTH : 0;
  if (own + worth === 0) return {};
  const modes = [...new Set([...Object.keys(recorded), ...Object.keys(average)])];
  return Object.fromEntries(
    modes.map((mode) => {
      const usual = worth > 0 ? (worth * Math.max(0, average[mode] ?? 0)) / studio : 0;
      return [mode, (Math.max(0, recorded[mode] ?? 0) + usual) / (own + worth)];
    }),
  );
};
