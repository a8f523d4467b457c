import type { Page } from 'puppeteer';

const FINDING = (least: number): string => `(() => {
  const controls = 'a[href], button, input:not([type=hidden]), select, textarea, summary';
  const small = [];
  for (const one of document.querySelectorAll(controls)) {
    if (!one.checkVisibility({ visibilityProperty: true }) || one.matches('.skip')) continue;
    const { parentNode } = one;
    const inSentence = one.tagName === 'A' && getComputedStyle(one).display === 'inline'
      && [...parentNode.childNodes].some((other) => other.nodeType === 3 && other.textContent.trim().length > 1);
    if (inSentence) continue;
    const isTick = one.type === 'checkbox' || one.type === 'radio';
    const { width, height } = ((isTick && one.closest('label')) || one).getBoundingClientRect();
    if (width === 0 || height >= ${least} - 0.6) continue;
    small.push((one.textContent || one.name || one.tagName).trim().slice(0, 40) + ': ' + Math.round(height) + ' px');
  }
  return small;
})()`;

/**
 * Controls of the page that stands there which are lower than a thimble needs: 44 px, at the bench 56. A box to tick counts
 * with its words; a link within a sentence is as tall as its line, as WCAG 2.5.8 lets it be.
 */
export const smallTargets = async (page: Page, path: string): Promise<string[]> =>
  (await page.evaluate(FINDING(path === '/' || path.startsWith('/bench') ? 56 : 44))) as string[];
