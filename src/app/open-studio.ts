import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { DailyRound } from '../storage/backup/daily-round.js';
import { OVERHEARD } from '../web/manners/listening.js';
import { type Config, isOverheard } from './config.js';
import { createApp } from './create-app.js';
import { Door } from './sign-in/door.js';

/** Opens the server for the studio's own file and says in the terminal how to come in. */
export const openStudio = async (config: Config): Promise<NestFastifyApplication> => {
  const app = await createApp(config);
  await app.listen(config.port, config.host);
  app.get(DailyRound).begin();
  if (isOverheard(config)) console.log(`warning: ${OVERHEARD}`);
  console.log(`address: ${addressOf(app, config)}`);
  const door = app.get(Door);
  if (!(await door.isOwned())) console.log(`setup code: ${door.setupCode} (type it at the address above)`);
  return app;
};

export const addressOf = (app: NestFastifyApplication, config: Config): string => {
  const at = app.getHttpServer().address();
  const port = typeof at === 'object' && at ? at.port : config.port;
  const host = config.host === '0.0.0.0' || config.host === '::' ? 'localhost' : config.host;
  return `${config.tls ? 'https' : 'http'}://${host.includes(':') ? `[${host}]` : host}:${port}`;
};
