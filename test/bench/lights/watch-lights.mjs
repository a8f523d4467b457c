/**
 * Runs within the page before anything of it: notes its paints, its shifts and its long tasks.
 * Blocked is what long tasks take beyond 50 ms each once something is painted.
 */
export const watchLights = () => {
  const seen = { fcp: 0, lcp: 0, shift: 0, tasks: [] };
  const watch = (type, note) =>
    new PerformanceObserver((list) => list.getEntries().forEach(note)).observe({ type, buffered: true });
  watch('paint', ({ name, startTime }) => {
    if (name === 'first-contentful-paint') seen.fcp = startTime;
  });
  watch('largest-contentful-paint', ({ startTime }) => {
    seen.lcp = startTime;
  });
  watch('layout-shift', ({ value, hadRecentInput }) => {
    if (!hadRecentInput) seen.shift += value;
  });
  watch('longtask', (task) => seen.tasks.push(task));
  globalThis.lights = () => ({
    ...seen,
    blocked: seen.tasks
      .filter(({ startTime, duration }) => startTime + duration > seen.fcp)
      .reduce(
        (sum, { startTime, duration }) =>
          sum + Math.max(0, startTime + duration - Math.max(startTime, seen.fcp) - 50),
        0,
      ),
  });
};
