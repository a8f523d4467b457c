import type { HttpAdapterHost } from '@nestjs/core';
import type { FastifyInstance } from 'fastify';

/**
 * Lets a few routes take larger bodies than the rest. To be called in a module's constructor: routes are made after
 * modules, and what a route was made with stays.
 */
export const raiseBodyLimit = (host: HttpAdapterHost, urls: readonly string[], bytes: number): void => {
  const fastify = host.httpAdapter.getInstance<FastifyInstance>();
  fastify.addHook('onRoute', (route) => {
    if (urls.includes(route.url)) route.bodyLimit = bytes;
  });
};
