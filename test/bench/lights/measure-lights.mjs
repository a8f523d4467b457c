// How the pages come up in a browser that is four times slower than this machine: a phone on a slow line, and a desk.
import puppeteer, { PredefinedNetworkConditions } from 'puppeteer';
import { findBrowser } from '../../../dist/printing/browser/find-browser.js';
import { startChild } from '../child.mjs';
import { pagesOf } from '../years/measure-years.mjs';
import { watchLights } from './watch-lights.mjs';

const SLOWER = 4;
/** What counts as good, in the words of https://web.dev/articles/lcp, /cls and /tbt; the figures from memory. */
const GOOD = { lcp: 2500, blocked: 200, shift: 0.1 };
const SIGHTS = [
  { name: 'phone', viewport: { width: 360, height: 780 }, line: PredefinedNetworkConditions['Slow 4G'] },
  { name: 'desk', viewport: { width: 1280, height: 900 }, line: null },
];
const SOUND = `(() => [
  [document.doctype?.name === 'html' && document.compatMode === 'CSS1Compat', 'no doctype'],
  [document.characterSet === 'UTF-8', 'not in UTF-8'],
  [document.querySelector('meta[name=viewport]') !== null, 'no viewport'],
  [document.documentElement.lang !== '', 'no language'],
  [document.title !== '', 'no title'],
  [[...document.images].every((one) => one.hasAttribute('width') || getComputedStyle(one).aspectRatio !== 'auto'), 'a picture without its size'],
].filter(([holds]) => !holds).map(([, words]) => words))()`;

/** One page, loaded with nothing in the cache. */
async function lightsOf(browser, { address, cookie }, path, { viewport, line }) {
  const page = await browser.newPage();
  try {
    const [name, value] = cookie.split('=');
    await page.setCookie({ name, value, url: address });
    await page.setViewport(viewport);
    await page.setCacheEnabled(false);
    await page.emulateCPUThrottling(SLOWER);
    await page.emulateNetworkConditions(line);
    const network = await page.createCDPSession();
    await network.send('Network.enable');
    const seen = { requests: 0, bytes: 0, wrong: [] };
    network.on('Network.loadingFinished', ({ encodedDataLength }) => {
      seen.requests += 1;
      seen.bytes += encodedDataLength;
    });
    page.on('response', (answer) => {
      const {
        'content-encoding': packed,
        'content-length': length,
        etag,
        'cache-control': kept,
      } = answer.headers();
      const url = answer.url().slice(address.length);
      if (answer.status() >= 400) seen.wrong.push(`${url} answers ${answer.status()}`);
      if (/\.(css|js|svg)(\?|$)/.test(url) && !packed && Number(length) > 1400)
        seen.wrong.push(`${url} not packed`);
      if (url.startsWith('/assets/') && !(etag && /max-age/.test(kept ?? '')))
        seen.wrong.push(`${url} not kept`);
    });
    page.on('console', (said) => {
      if (['error', 'warn'].includes(said.type())) seen.wrong.push(said.text());
    });
    page.on('pageerror', (error) => seen.wrong.push(String(error)));
    await page.evaluateOnNewDocument(watchLights);
    await page.goto(address + path, { waitUntil: 'networkidle0', timeout: 60_000 });
    seen.wrong.push(...(await page.evaluate(SOUND)));
    return { ...seen, ...(await page.evaluate('globalThis.lights()')) };
  } finally {
    await page.close();
  }
}

const countOf = (what, broken) => ({
  what,
  count: broken.length,
  note: broken.length > 0 ? [...new Set(broken)].slice(0, 4).join('; ') : 'of every page above, both ways',
});

/** Every main page of the demonstration studio, on a phone and at a desk. */
export async function measureLights() {
  const studio = await startChild('years/old-studio.mjs');
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const args = ['--disable-background-networking', ...asRoot];
  const browser = await puppeteer.launch({ executablePath: await findBrowser(), args });
  const [rows, blocked, moved, wrong] = [[], [], [], []];
  try {
    const pages = Object.entries(pagesOf(studio.ready)).filter(([, path]) => !path.startsWith('/api'));
    for (const [what, path] of pages)
      for (const sight of SIGHTS) {
        const seen = await lightsOf(browser, studio.ready, path, sight);
        const where = `${what}, ${sight.name}`;
        if (seen.blocked > GOOD.blocked) blocked.push(`${where}: ${seen.blocked.toFixed(0)} ms`);
        if (seen.shift > GOOD.shift) moved.push(`${where}: ${seen.shift.toFixed(3)}`);
        wrong.push(...seen.wrong);
        rows.push({
          what: `${where}: largest paint`,
          ours: seen.lcp,
          within: GOOD.lcp,
          note: `first paint ${seen.fcp.toFixed(0)} ms, blocked ${seen.blocked.toFixed(0)} ms, shift ${seen.shift.toFixed(3)}; ${(seen.bytes / 1024).toFixed(0)} KiB in ${seen.requests} requests`,
        });
      }
  } finally {
    await browser.close();
    await studio.stop();
  }
  return [
    ...rows,
    countOf(`pages blocked for more than ${GOOD.blocked} ms`, blocked),
    countOf(`pages that move by more than ${GOOD.shift}`, moved),
    countOf('errors, complaints, missing heads, assets unpacked or not kept', wrong),
  ];
}
