/**
 * Something the check page says before a paper is issued.
 *
 * `code` is the rule's own name (`BR-CO-17`) or, where the standard has none, ours (`iban`); `field` is the path of what
 * mends it; a finding that does not block wants a look and a yes.
 */
export type Finding = {
  readonly code: string;
  readonly text: string;
  readonly field: string;
  readonly blocks: boolean;
};

/** A finding that must be mended first. */
export const mustMend = (code: string, field: string, text: string): Finding => ({
  code,
  text,
  field,
  blocks: true,
});

/** A finding that asks "is that right?". */
export const wantsLook = (code: string, field: string, text: string): Finding => ({
  code,
  text,
  field,
  blocks: false,
});

/** May the paper be issued: nothing blocks, and every other finding was answered. */
export const mayIssue = (findings: readonly Finding[], confirmed: readonly string[] = []): boolean =>
  findings.every((finding) => !finding.blocks && confirmed.includes(finding.code));
