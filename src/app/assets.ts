import { createHash } from 'node:crypto';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Readable } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import fastifyStatic from '@fastify/static';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyInstance, onSendAsyncHookHandler } from 'fastify';
import { joinedLook, LOOK } from './look.js';

const require = createRequire(import.meta.url);
const packageFolder = (name: string): string => dirname(require.resolve(`${name}/package.json`));

const pack = promisify(gzip);
/** Smaller ones take one packet either way. */
const WORTH_PACKING = 1400;

/** Sends style sheets, scripts and drawings packed; each is packed once, and anew when its file is another. */
const packing = (): onSendAsyncHookHandler => {
  const packed = new Map<string, Promise<Buffer>>();
  return async (request, reply, payload) => {
    const isText = /css|javascript|svg/.test(String(reply.getHeader('content-type')));
    if (!isText || reply.statusCode !== 200 || Number(reply.getHeader('content-length')) < WORTH_PACKING)
      return payload;
    reply.header('vary', 'accept-encoding');
    if (request.method !== 'GET' || !/\bgzip\b/.test(String(request.headers['accept-encoding'])))
      return payload;
    const which = `${request.url} ${String(reply.getHeader('etag'))}`;
    const known = packed.get(which);
    const whole = typeof payload === 'string' ? payload : undefined;
    const bytes = known ?? (whole ? pack(whole) : buffer(payload as Readable).then((read) => pack(read)));
    if (!known) packed.set(which, bytes);
    else if (!whole) (payload as Readable).destroy();
    const sent = await bytes;
    reply
      .header('content-encoding', 'gzip')
      .header('content-length', sent.length)
      .removeHeader('accept-ranges');
    return sent;
  };
};

/** Serves the look from this server alone: style sheets, scripts, fonts. Nothing is ever loaded from elsewhere. */
export const serveAssets = async (app: NestFastifyApplication, templates: string): Promise<void> => {
  // In a scope of their own, so that no page pays for what is done to them.
  await app.register(async (scope: FastifyInstance) => {
    scope.addHook('onSend', packing());
    await assetsIn(scope, templates);
  });
};

const serveLook = (scope: FastifyInstance, templates: string): void => {
  const look = joinedLook(templates);
  const etag = `"${createHash('sha256').update(look).digest('base64url')}"`;
  scope.get(LOOK, (request, reply) => {
    reply.headers({ etag, 'cache-control': 'public, max-age=0' });
    if (request.headers['if-none-match'] === etag) return reply.status(304).send();
    return reply.type('text/css; charset=utf-8').send(look);
  });
};

const assetsIn = async (scope: FastifyInstance, templates: string): Promise<void> => {
  const week = {
    maxAge: 0,
    etag: true,
    lastModified: true,
    index: false as const,
    dotfiles: 'deny' as const,
  };
  await scope.register(fastifyStatic, {
    ...week,
    root: join(templates, 'assets'),
    prefix: '/assets/',
    decorateReply: true,
  });
  serveLook(scope, templates);
  for (const face of ['source-serif-4', 'source-sans-3']) {
    await scope.register(fastifyStatic, {
      ...week,
      root: join(packageFolder(`@fontsource/${face}`), 'files'),
      prefix: `/assets/fonts/${face}/`,
      decorateReply: false,
      maxAge: 31_536_000_000,
      immutable: true,
    });
  }
  const script = (url: string, path: string): void => {
    scope.get(url, (_request, reply) =>
      reply.type('text/javascript; charset=utf-8').sendFile(path.split('/').pop() ?? '', dirname(path)),
    );
  };
  script('/assets/vendor/turbo.js', join(packageFolder('@hotwired/turbo'), 'dist/turbo.es2017-esm.js'));
  script('/assets/vendor/stimulus.js', join(packageFolder('@hotwired/stimulus'), 'dist/stimulus.js'));
};
