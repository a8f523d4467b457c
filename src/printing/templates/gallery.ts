import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** One way a component is used, with the parameters it is given. */
export interface Example {
  title: string;
  params: Record<string, unknown>;
}

/** A component as the gallery shows it: its name, its header comment, its examples. */
export interface Exhibit {
  name: string;
  template: string;
  about: string;
  opensForm: boolean;
  examples: Example[];
}

const aboutOf = (source: string): string => /^\{\{!--\s*([\s\S]*?)\s*--\}\}/.exec(source)?.[1] ?? '';

/** Every component in the templates folder, in order, with what its examples.json shows. */
export const galleryOf = (folder: string): Exhibit[] => {
  const components = join(folder, 'components');
  const names = readdirSync(components).filter((name) => existsSync(join(components, name, `${name}.hbs`)));
  return names.sort().map((name) => ({
    name,
    template: `components/${name}`,
    about: aboutOf(readFileSync(join(components, name, `${name}.hbs`), 'utf8')),
    opensForm: name === 'form',
    examples: JSON.parse(readFileSync(join(components, name, 'examples.json'), 'utf8')) as Example[],
  }));
};
