/** A template that could not be drawn: which one, and what it missed. */
export class TemplateFault extends Error {
  constructor(
    readonly template: string,
    cause: unknown,
  ) {
    super(`The template ${template} could not be drawn: ${reason(cause)}`, { cause });
    this.name = 'TemplateFault';
  }
}

const reason = (cause: unknown): string => {
  const said = cause instanceof Error ? cause.message : String(cause);
  const missing = /^"(.+)" not defined in .*? - (\d+):\d+/s.exec(said);
  if (missing) return `"${missing[1]}" is missing from its model (line ${missing[2]}).`;
  const hollow = /^Cannot read properties of (?:undefined|null) \(reading '(.+)'\)/.exec(said);
  return hollow ? `what should hold "${hollow[1]}" is missing from its model.` : said;
};
