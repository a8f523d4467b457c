/** What a form sent: every field as typed. */
export type Typed = Readonly<Record<string, string>>;

/** As long as a whole body: a field's own schema says what is too long, and the form then comes back whole. */
const LONGEST_FIELD = 2_000_000;

/**
 * A form's body as plain text fields; a field sent twice keeps its last value, as with a hidden `no` before a checkbox.
 * Control characters that no keyboard makes are dropped, line ends are made one kind.
 */
export const typedOf = (body: unknown): Typed => {
  const typed: Record<string, string> = {};
  for (const [name, value] of Object.entries((body ?? {}) as Record<string, unknown>)) {
    const last: unknown = Array.isArray(value) ? value.at(-1) : value;
    if (typeof last !== 'string') continue;
    typed[name] = last
      .slice(0, LONGEST_FIELD)
      .replace(/\r\n?/g, '\n')
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones to drop
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, '');
  }
  return typed;
};
