import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'puppeteer';

/** The rules of axe-core for WCAG 2.0 to 2.2, levels A and AA, and its best practices. */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

const axe = readFileSync(
  createRequire(createRequire(import.meta.url).resolve('@axe-core/puppeteer')).resolve('axe-core/axe.min.js'),
  'utf8',
);

type Audited = {
  violations: { id: string; nodes: { target: string[]; html: string }[] }[];
  passes: unknown[];
};

/** A desk in daylight and a phone at night: what goes wrong with width or colour goes wrong at one of them. */
export const SIGHTS = [
  [1280, 'light'],
  [360, 'dark'],
] as const;

export type Scheme = 'light' | 'dark';

/** Looks at the page that stands there, without loading it anew. */
export const look = async (page: Page, width: number, scheme: Scheme): Promise<void> => {
  await page.setViewport({ width, height: 900 });
  await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
};

/**
 * Runs every rule of the automated audit on the page that stands there, as it is looked at.
 *
 * The auditor is laid into a document once; laying it in from outside, the browser asks no content security policy.
 *
 * @returns one line for each rule broken, and how many rules were kept
 */
export const auditOf = async (page: Page): Promise<{ broken: string[]; kept: number }> => {
  for (const frame of page.frames())
    if ((await frame.evaluate('typeof axe')) === 'undefined') await frame.evaluate(axe);
  const { violations, passes } = (await page.evaluate(
    `axe.run(document, { runOnly: ${JSON.stringify(RULES)}, resultTypes: ['violations'] })`,
  )) as Audited;
  return {
    broken: violations.map(({ id, nodes }) =>
      `${id}: ${nodes.map(({ target, html }) => `${target.join(' ')} (${html.slice(0, 120)})`).join(' | ')}`.slice(
        0,
        400,
      ),
    ),
    kept: passes.length,
  };
};

/**
 * Audits the page that stands there at a desk and on a phone, light and dark, and sees that nothing is wider than the page.
 *
 * @param what how the page is called in what was found
 * @returns a line for each thing found
 */
export const auditInEverySight = async (page: Page, what: string): Promise<string[]> => {
  const found: string[] = [];
  for (const [width, scheme] of SIGHTS) {
    await look(page, width, scheme);
    const wide = Number(
      await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth'),
    );
    if (wide > 0) found.push(`${what} at ${width}: ${wide} px too wide`);
    const { broken, kept } = await auditOf(page);
    if (kept < 15) found.push(`${what} at ${width}: only ${kept} rules had anything to look at`);
    found.push(...broken.map((one) => `${what} at ${width}, ${scheme}: ${one}`));
  }
  return found;
};
