/** Routes out of the tree Fastify draws, as `get /clients/:id`: four characters deeper for each part of a path. */
export const routesUnder = (start, tree) => {
  const parts = [];
  return tree.split('\n').flatMap((line) => {
    const [, lines = '', part = '', methods] = /^([│├└─\s]*)(\S+)(?: \((.+)\))?/.exec(line) ?? [];
    parts.splice(lines.length / 4 - 1, parts.length, part);
    const path = parts.join('');
    const said = (methods ?? '').split(', ').filter((method) => method !== '' && method !== 'HEAD');
    return path.startsWith(start) ? said.map((method) => `${method.toLowerCase()} ${path}`) : [];
  });
};
