import 'reflect-metadata';
import type { IncomingMessage } from 'node:http';
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import multipart from '@fastify/multipart';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { type Clock, MachineClock } from '../storage/clock.js';
import { ReadSide } from '../storage/read-side.js';
import { log } from '../web/log.js';
import { refuseNul } from '../web/manners/no-nul.js';
import { isOurOwn } from '../web/manners/same-origin.js';
import type { Request } from '../web/visit.js';
import { AppModule } from './app.module.js';
import { serveAssets } from './assets.js';
import { readCertificate } from './certificate.js';
import type { Config } from './config.js';

const BODY_LIMIT = 2 * 1024 * 1024;
const FILE_LIMIT = 45 * 1024 * 1024;

/** Builds the server without listening yet. */
export const createApp = async (config: Config, clock?: Clock): Promise<NestFastifyApplication> => {
  const tls = config.tls && { https: readCertificate(config.tls, (clock ?? new MachineClock()).now()) };
  log.level = config.logLevel;
  const adapter = new FastifyAdapter({
    bodyLimit: BODY_LIMIT,
    trustProxy: false,
    multipart: false,
    exposeHeadRoutes: false,
    rewriteUrl: askedForTheHeadAlone,
    ...tls,
  } as object);
  const app = await NestFactory.create<NestFastifyApplication>(AppModule.with(config, clock), adapter, {
    logger: ['error', 'warn'],
    abortOnError: false,
  });
  await guardHeaders(app, config);
  await app.register(cookie as never);
  await app.register(multipart as never, { limits: { fileSize: FILE_LIMIT, files: 4, fields: 2000 } });
  await serveAssets(app, config.templates);
  app.enableShutdownHooks();
  return app;
};

/**
 * HEAD is answered as GET is; Node itself then sends the headers and leaves the body out. A second route beside each of
 * the first ones, Fastify's own way, would take a tenth of a start.
 */
const askedForTheHeadAlone = (request: IncomingMessage): string => {
  if (request.method === 'HEAD') request.method = 'GET';
  return request.url ?? '/';
};

/** What every answer carries, and what every change must come with. */
const guardHeaders = async (app: NestFastifyApplication, config: Config): Promise<void> => {
  await app.register(helmet as never, {
    enableCSPNonces: true,
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        'default-src': ["'self'"],
        'script-src': ["'self'"],
        'style-src': ["'self'"],
        'img-src': ["'self'", 'data:'],
        'object-src': ["'none'"],
        'base-uri': ["'none'"],
        'form-action': ["'self'"],
        'frame-ancestors': ["'none'"],
      },
    },
    // On a home network without TLS these would lock the studio out of its own pages.
    hsts: config.tls ? { maxAge: 31_536_000 } : false,
    crossOriginEmbedderPolicy: false,
    referrerPolicy: { policy: 'same-origin' },
  });
  const fastify = app.getHttpAdapter().getInstance();
  const read = app.get(ReadSide);
  fastify.addHook('preValidation', async (request) => {
    const sentByProgram = request.headers['content-type']?.includes('json') === true;
    refuseNul(request.url, sentByProgram ? request.body : undefined);
  });
  fastify.addHook('onRequest', (request, _reply, done) =>
    request.method === 'GET' ? read.looking(done) : done(),
  );
  fastify.addHook('onRequest', async (request, reply) => {
    (request as Request).nonce = (reply as unknown as { cspNonce?: { style: string } }).cspNonce?.style ?? '';
    if (isOurOwn(request.method, request.headers)) return;
    await reply
      .status(403)
      .type('text/plain; charset=utf-8')
      .send('This request came from another site, so nothing was done.');
  });
};
