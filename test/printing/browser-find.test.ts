import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { findBrowser } from '../../src/printing/browser/find-browser.js';

const home = mkdtempSync(join(tmpdir(), 'bastings-browser-'));

afterAll(() => rmSync(home, { recursive: true, force: true }));

const standing = (...path: string[]): string => {
  const file = join(home, ...path);
  mkdirSync(join(file, '..'), { recursive: true });
  writeFileSync(file, '');
  chmodSync(file, 0o755);
  return file;
};

describe('finding a browser', () => {
  it('takes the one that is named, before any other', async () => {
    const named = standing('named');
    expect(await findBrowser({ PUPPETEER_EXECUTABLE_PATH: named })).toBe(named);
  });

  it('does not paper over a name that is wrong', async () => {
    expect(await findBrowser({ PUPPETEER_EXECUTABLE_PATH: join(home, 'nowhere') })).toBeNull();
  });

  it('looks in the usual places, spelling out the folders of this person', async () => {
    const path = ['Applications', 'Chromium.app', 'Contents', 'MacOS', 'Chromium'];
    const chromium = standing(...path);
    expect(await findBrowser({ HOME: home }, 'darwin')).toBe(chromium);
    expect(await findBrowser({}, 'darwin')).not.toBe(chromium);
  });

  it('agrees with the set-up, which looks before anything is built', async () => {
    const setUp = pathToFileURL('.setup/browser.mjs').href;
    const script = `import('${setUp}').then(async (m) => process.stdout.write(String(await m.findBrowser())))`;
    const found = execFileSync(process.execPath, ['-e', script], { encoding: 'utf8' });
    expect(found).toBe(String(await findBrowser()));
  });
});
