import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';

const require = createRequire(import.meta.url);
const packageFolder = (name: string): string => dirname(require.resolve(`${name}/package.json`));

/** Serves the look from this server alone: style sheets, scripts, fonts. Nothing is ever loaded from elsewhere. */
export const serveAssets = async (app: NestFastifyApplication, templates: string): Promise<void> => {
  const fastify = app.getHttpAdapter().getInstance();
  const week = {
    maxAge: 0,
    etag: true,
    lastModified: true,
    index: false as const,
    dotfiles: 'deny' as const,
  };
  await app.register(fastifyStatic, {
    ...week,
    root: join(templates, 'assets'),
    prefix: '/assets/',
    decorateReply: true,
  });
  for (const face of ['source-serif-4', 'source-sans-3']) {
    await app.register(fastifyStatic, {
      ...week,
      root: join(packageFolder(`@fontsource/${face}`), 'files'),
      prefix: `/assets/fonts/${face}/`,
      decorateReply: false,
      maxAge: 31_536_000_000,
      immutable: true,
    });
  }
  const script = (url: string, path: string): void => {
    fastify.get(url, (_request, reply) =>
      reply.type('text/javascript; charset=utf-8').sendFile(path.split('/').pop() ?? '', dirname(path)),
    );
  };
  script('/assets/vendor/turbo.js', join(packageFolder('@hotwired/turbo'), 'dist/turbo.es2017-esm.js'));
  script('/assets/vendor/stimulus.js', join(packageFolder('@hotwired/stimulus'), 'dist/stimulus.js'));
};
