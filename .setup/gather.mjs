import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import path from 'node:path';
import { build } from 'vite';
import { inRoot } from './run.mjs';

const dist = inRoot('dist');
const gatheredFile = path.join(dist, 'gathered', 'main.cjs');

/** Compiled for one machine, or too large and too rarely wanted to be read at a start: they stay where they are. */
const LEFT = ['sqlite3', '@node-rs/argon2', '@napi-rs/image', 'puppeteer', 'pg-native'];

const packageOf = (id) =>
  id
    .split('/')
    .slice(0, id.startsWith('@') ? 2 : 1)
    .join('/');

const isLeft = (id) => builtinModules.includes(id.replace(/^node:/, '')) || LEFT.includes(packageOf(id));

/** In front of every gathered file: where a file stood that asks where it stands. */
const STOOD = `const __stood = (file) => { const path = require('node:path').join(__dirname, file); return { path, folder: require('node:path').dirname(path), href: require('node:url').pathToFileURL(path).href }; };`;

/** A file that asks where it stands is told where it stood before it was gathered. */
const standsWhereItStood = {
  name: 'stands-where-it-stood',
  transform(code, id) {
    if (!/import\.meta\.(url|dirname)|__dirname|__filename/.test(code)) return null;
    const stood = `__stood(${JSON.stringify(path.relative(path.dirname(gatheredFile), id).split(path.sep).join('/'))})`;
    return {
      code: code
        .replaceAll('import.meta.url', `${stood}.href`)
        .replace(/import\.meta\.dirname|\b__dirname\b/g, `${stood}.folder`)
        .replace(/\b__filename\b/g, `${stood}.path`),
      map: null,
    };
  },
};

/** What is passed on carries the notices of those who wrote it. */
const withTheirNotices = {
  name: 'with-their-notices',
  generateBundle() {
    const folders = new Set();
    for (const id of this.getModuleIds()) {
      const found = /^.*\/node_modules\/(?:@[^/]+\/)?[^/]+/.exec(id.split(path.sep).join('/'));
      if (found && !id.startsWith('\0')) folders.add(found[0]);
    }
    const notices = [...folders].sort().map((folder) => {
      const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
      const told = readdirSync(folder).filter((file) => /^(licen[cs]e|notice|copying)/i.test(file));
      const texts = told.map((file) => readFileSync(`${folder}/${file}`, 'utf8').trim());
      return [`${name} ${version} (${license})`, ...texts].join('\n\n');
    });
    const source = `${notices.join(`\n\n${'─'.repeat(72)}\n\n`)}\n`;
    this.emitFile({ type: 'asset', fileName: 'NOTICES.txt', source });
  },
};

/**
 * Gathers the built program and the packages it is made with, some three thousand small files, into a few: Node takes
 * about a millisecond for each file it is asked for, which would be half of the time a start takes.
 */
export const gather = () =>
  build({
    root: inRoot(),
    configFile: false,
    logLevel: 'error',
    plugins: [standsWhereItStood, withTheirNotices],
    ssr: { noExternal: true, external: LEFT },
    build: {
      ssr: true,
      target: 'node20',
      minify: false,
      sourcemap: true,
      outDir: path.dirname(gatheredFile),
      emptyOutDir: true,
      rolldownOptions: {
        input: { main: path.join(dist, 'main.js') },
        treeshake: false,
        external: isLeft,
        // What Nest and TypeORM would load if it were installed, and is not.
        onwarn: () => undefined,
        output: {
          format: 'cjs',
          entryFileNames: '[name].cjs',
          chunkFileNames: '[name]-[hash].cjs',
          keepNames: true,
          banner: STOOD,
        },
      },
    },
  });
