import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { buildIfStale } from './build.mjs';
import { prepare } from './prepare.mjs';
import { inRoot, run } from './run.mjs';

/*
 * Makes the pictures of the README from the demonstration studio: loads it into a temporary folder, opens its pages in
 * the browser that prints the papers, and writes .pictures/*.png; those of the handbook go to templates/assets/handbook.
 */

const say = (line) => process.stdout.write(`${line}\n`);
const folder = inRoot('.pictures');
const { browser: executablePath } = await prepare({ say, browser: true });
await buildIfStale({ say });
const dataDir = mkdtempSync(path.join(tmpdir(), 'bastings-pictures-'));

/** The demonstration's own words: where it is, and how to come in. */
async function openDemo() {
  const env = {
    ...process.env,
    BASTINGS_MODE: 'demo',
    DATA_DIR: dataDir,
    PORT: '0',
    TIME_ZONE: 'Europe/Dublin',
  };
  const server = spawn(process.execPath, [inRoot('dist/main.js')], {
    env,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const said = {};
  for await (const line of createInterface({ input: server.stdout })) {
    const [, name, value] = /^(address|sign in|API token): (.+)$/.exec(line) ?? [];
    if (name) said[name] = value;
    if (name === 'API token') break;
  }
  const [name, passphrase] = said['sign in'].split(' / ');
  return { server, address: said.address, token: said['API token'], name, passphrase };
}

const demo = await openDemo();
const { default: puppeteer } = await import('puppeteer');
const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
const browser = await puppeteer.launch({
  executablePath,
  args: ['--disable-background-networking', ...asRoot],
});
try {
  mkdirSync(folder, { recursive: true });
  const ask = async (url) => {
    const answer = await fetch(demo.address + url, { headers: { authorization: `Bearer ${demo.token}` } });
    return answer.headers.get('content-type')?.includes('json')
      ? answer.json()
      : new Uint8Array(await answer.arrayBuffer());
  };
  const commission = (await ask('/api/commissions?q=tweed')).items[0];
  const garments = await ask(`/api/commissions/${commission.id}/garments`);
  const garment = (garments.items ?? garments)[0];
  const client = (await ask('/api/clients?q=corvin')).items[0];
  const quote = (await ask('/api/papers?q=corvin')).items[0];
  const sheet = `/commissions/${commission.id}/garments/${garment.id}`;

  const page = await browser.newPage();
  await page.goto(`${demo.address}/sign-in`);
  await page.type('[name=name]', demo.name);
  await page.type('[name=passphrase]', demo.passphrase);
  await page.keyboard.press('Enter');
  await page.waitForFunction("!location.pathname.startsWith('/sign-in')");
  const ofTheHandbook = inRoot('templates/assets/handbook');
  mkdirSync(ofTheHandbook, { recursive: true });
  // Named as their chapters; one size for all, so that a page does not move while they come in.
  await page.setViewport({ width: 960, height: 640 });
  for (const [chapter, url] of [
    ['first-evening', '/rates'],
    ['measure', `/clients/${client.id}`],
    ['plan-and-price', sheet],
    ['cloth', '/cloth-room'],
    ['at-the-bench', '/bench'],
    ['deliver-and-get-paid', '/papers'],
    ['reckoning', '/lessons'],
    ['promises', '/bench/promises'],
  ]) {
    const answer = await page.goto(demo.address + url, { waitUntil: 'networkidle0' });
    if (!answer?.ok()) throw new Error(`${url} answers ${answer?.status()}`);
    await page.screenshot({ path: path.join(ofTheHandbook, `${chapter}.webp`), type: 'webp', quality: 60 });
    say(`templates/assets/handbook/${chapter}.webp`);
  }
  for (const [name, url, width, height] of [
    ['bench', '/', 1280, 860],
    ['job-sheet', sheet, 1280, 1100],
    ['job-sheet-phone', sheet, 360, 1100],
    ['rates', '/rates', 1280, 960],
    ['client', `/clients/${client.id}`, 1280, 960],
    ['lessons', '/lessons', 1280, 960],
  ]) {
    await page.setViewport({ width, height });
    await page.goto(demo.address + url, { waitUntil: 'networkidle0' });
    await page.screenshot({ path: path.join(folder, `${name}.png`) });
    say(`.pictures/${name}.png`);
  }
  const pdf = path.join(dataDir, 'quote.pdf');
  writeFileSync(pdf, await ask(`/api/papers/${quote.id}.pdf`));
  const made = await run('pdftoppm', [
    '-png',
    '-r',
    '60',
    '-f',
    '1',
    '-l',
    '1',
    '-singlefile',
    pdf,
    path.join(folder, 'quote'),
  ]);
  say(
    made.code === 0
      ? '.pictures/quote.png'
      : 'The quote stays without a picture: pdftoppm (poppler-utils) is not here.',
  );
} finally {
  await browser.close();
  demo.server.kill('SIGTERM');
  rmSync(dataDir, { recursive: true, force: true });
}
