import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { inRoot } from '../run.mjs';

const json = (name) => JSON.parse(readFileSync(inRoot(name), 'utf8'));

const licenceOf = ({ license, licenses }) =>
  String(license?.type ?? license ?? licenses?.map(({ type }) => type).join(' OR ') ?? 'none told');

/** Every package that is installed with the program, with the licence it tells of itself; what is for other systems is not here. */
export const installedPackages = () => {
  const found = new Map();
  for (const [place, { dev, devOptional }] of Object.entries(json('package-lock.json').packages)) {
    if (place === '' || dev || devOptional || !existsSync(inRoot(place, 'package.json'))) continue;
    const told = json(`${place}/package.json`);
    found.set(`${told.name}@${told.version}`, {
      name: told.name,
      version: told.version,
      licence: licenceOf(told),
    });
  }
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
};

const cell = (text) => (/[,"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

// `node .setup/checks/packages.mjs` writes the list anew, after a package was added or renewed.
if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const rows = installedPackages().map(({ name, version, licence }) =>
    [name, version, licence].map(cell).join(','),
  );
  writeFileSync(inRoot('data', 'security', 'packages.csv'), `name,version,licence\n${rows.join('\n')}\n`);
  process.stdout.write(`${rows.length} packages.\n`);
}
