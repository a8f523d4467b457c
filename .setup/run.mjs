import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';

export const root = path.resolve(import.meta.dirname, '..');
export const inRoot = (...parts) => path.join(root, ...parts);

const running = new Set();

/** Ctrl-C ends the program under way first; the listeners go with it, so that a server started here keeps its own. */
const stop = (signal) => {
  for (const child of running) child.kill(signal);
  process.exit(signal === 'SIGINT' ? 130 : 143);
};
function started(child) {
  if (running.size === 0) for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, stop);
  running.add(child);
}
function ended(child) {
  running.delete(child);
  if (running.size === 0) for (const signal of ['SIGINT', 'SIGTERM']) process.off(signal, stop);
}

/**
 * Runs a program to its end. With `live` its output goes straight to the terminal; otherwise it comes back
 * as text, both streams in the order they were written.
 */
export function run(program, args, { env = {}, cwd = root, live = false, shell = false } = {}) {
  return new Promise((resolve) => {
    const child = spawn(program, args, {
      cwd,
      shell,
      env: { ...process.env, ...env },
      stdio: live ? 'inherit' : ['ignore', 'pipe', 'pipe'],
    });
    started(child);
    let output = '';
    const collect = (chunk) => {
      output += chunk;
    };
    child.stdout?.setEncoding('utf8').on('data', collect);
    child.stderr?.setEncoding('utf8').on('data', collect);
    const end = (code, failure = '') => {
      ended(child);
      resolve({ code, output: output + failure });
    };
    child.on('error', (error) => end(127, `${program}: ${error.message}\n`));
    child.on('close', (code) => end(code ?? 1));
  });
}

/** A tool of node_modules is started with this very Node: no shell, no look-up, the same on every system. */
export const runTool = (script, args, options) =>
  run(process.execPath, [inRoot('node_modules', ...script.split('/')), ...args], options);

export function runNpm(args, options) {
  const own = process.env.npm_execpath;
  if (own?.endsWith('.js') && existsSync(own)) return run(process.execPath, [own, ...args], options);
  return run('npm', args, { ...options, shell: process.platform === 'win32' });
}

/** What a package registry answers may carry its address; people need the reason, not the address. */
export const withoutAddresses = (text) => text.replace(/\bhttps?:\/\/[^\s'")]+/g, '(address left out)');

/** Asked to end, npm ends its shell and forgets what runs in it. So whatever npm started watches its parent. */
export function endWithParent() {
  if (!process.env.npm_lifecycle_event) return;
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    process.kill(process.pid, 'SIGTERM');
  }, 500);
  watch.unref();
}
