// Finds the browser that prints papers, or gets one. Plain Node: it runs before anything is built.
// src/printing/browser/find-browser.ts reads the same list of places for the running program.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const list = new URL('../data/starter/browsers.json', import.meta.url);

const spelledOut = (place) => {
  const names = [...place.matchAll(/\{([^}]+)\}/g)].map((match) => match[1]);
  if (names.some((name) => !process.env[name])) return null;
  return place.replace(/\{([^}]+)\}/g, (_, name) => process.env[name]);
};

const fromItsOwnStore = async () => {
  try {
    return (await import('puppeteer')).executablePath();
  } catch {
    return null;
  }
};

/** The path of a browser that can print, or null. */
export const findBrowser = async () => {
  const named = process.env.PUPPETEER_EXECUTABLE_PATH;
  if (named) return existsSync(named) ? named : null;
  const places = JSON.parse(readFileSync(list, 'utf8'))[process.platform] ?? [];
  const standing = places.map(spelledOut).find((path) => path && existsSync(path));
  if (standing) return standing;
  const own = await fromItsOwnStore();
  return own && existsSync(own) ? own : null;
};

const run = (command, args, env = {}) =>
  spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, ...env },
    shell: process.platform === 'win32',
  }).status === 0;

const isDebianRoot = () =>
  process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/etc/debian_version');

const throughApt = () => {
  const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
  return (
    run('apt-get', ['update', '-qq'], quiet) &&
    run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet)
  );
};

/**
 * Finds a browser or installs one. Answers with its path, or null when neither worked: everything but
 * printing still runs then.
 * @param {{ say?: (line: string) => void }} [options] where progress is told
 */
export const ensureBrowser = async ({ say = console.log } = {}) => {
  const found = await findBrowser();
  if (found) return found;
  if (process.env.PUPPETEER_EXECUTABLE_PATH) {
    say(`PUPPETEER_EXECUTABLE_PATH is ${process.env.PUPPETEER_EXECUTABLE_PATH}, where no browser stands.`);
    return null;
  }
  if (isDebianRoot()) {
    say('No browser for printing found: installing chromium with apt-get (a minute or two) …');
    if (throughApt()) {
      const installed = await findBrowser();
      if (installed) return installed;
    }
  }
  say('Fetching a browser for printing with npx puppeteer browsers install chrome …');
  run('npx', ['puppeteer', 'browsers', 'install', 'chrome'], { PUPPETEER_SKIP_DOWNLOAD: '' });
  const fetched = await findBrowser();
  if (!fetched)
    say('No browser could be had. Everything works but PDF; install Chrome, Chromium or Edge for that.');
  return fetched;
};
