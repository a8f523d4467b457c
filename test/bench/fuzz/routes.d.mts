/** `get /clients/:id` and so on, out of the tree Fastify draws. */
export function routesUnder(start: string, tree: string): string[];
