import { existsSync } from 'node:fs';
import { run } from './run.mjs';

/** Whether packages of the system may be installed here: a Debian-like system, and its administrator. */
export const canInstallPackages = () => existsSync('/usr/bin/apt-get') && process.getuid?.() === 0;

let listIsFresh = false;

/** Installs packages of the system; answers whether all went well, and says why not. */
export async function installPackages(names, say) {
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  if (!listIsFresh) {
    const update = await run('apt-get', ['update', '-qq'], { env });
    listIsFresh = update.code === 0;
  }
  const install = await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...names], {
    env,
  });
  if (install.code !== 0) say(`Could not install ${names.join(', ')}:\n${lastLines(install.output)}`);
  return install.code === 0;
}

const lastLines = (text) => text.trimEnd().split('\n').slice(-12).join('\n');
