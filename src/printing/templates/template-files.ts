import { readdirSync } from 'node:fs';
import { relative, sep } from 'node:path';

/** Every template by the name it is called by; a component's own folder is left out of its name. */
export const templateFiles = (folder: string): Map<string, string> => {
  const files = new Map<string, string>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !entry.name.endsWith('.hbs')) continue;
    const path = [...relative(folder, entry.parentPath).split(sep), entry.name].filter(Boolean).join('/');
    files.set(path.replace(/\.hbs$/, '').replace(/^components\/[^/]+\//, 'components/'), path);
  }
  return new Map([...files].sort(([a], [b]) => a.localeCompare(b)));
};
