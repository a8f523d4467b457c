import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

export const root = path.resolve(import.meta.dirname, '../..');

/** What tools leave behind, what git writes, and what a studio keeps: none of it is source. */
const leftovers = new Set(['node_modules', 'dist', '.cache', '.git']);
const kept = new Set(['data/studio', 'data/demo-studio', 'data/backups']);

const walk = (folder: string): string[] =>
  readdirSync(path.join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const name = path.posix.join(folder, entry.name);
    if (leftovers.has(entry.name) || kept.has(name)) return [];
    return entry.isDirectory() ? walk(name) : [name];
  });

/** Every file of the project below these folders, as a path from its top with forward slashes. */
export const filesUnder = (...folders: string[]): string[] => folders.flatMap(walk);

export const read = (name: string): string => readFileSync(path.join(root, name), 'utf8');

/** Files that people write by hand: programs, templates, style. Values, fonts and pictures are not. */
export const isWritten = (name: string): boolean => /\.(ts|mts|js|mjs|cjs|hbs|css)$/.test(name);
