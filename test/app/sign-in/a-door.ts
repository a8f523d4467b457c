import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readConfig } from '../../../src/app/config.js';
import { createApp } from '../../../src/app/create-app.js';
import { Door } from '../../../src/app/sign-in/door.js';
import { StillClock } from '../../support/still-clock.js';

type Asked = { fields?: Record<string, string>; headers?: Record<string, string>; from?: string };

/** A studio that nobody has opened yet, asked over HTTP. */
export const openDoor = async () => {
  const folder = mkdtempSync(join(tmpdir(), 'bastings-door-'));
  const clock = new StillClock();
  const app = await createApp(
    readConfig({ DATA_DIR: folder, LOG_LEVEL: 'error', TIME_ZONE: 'Europe/Dublin' }),
    clock,
  );
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  const ask = async (method: 'GET' | 'POST', url: string, { fields, headers, from }: Asked = {}) => {
    const form = {
      'content-type': 'application/x-www-form-urlencoded',
      'sec-fetch-site': 'same-origin',
    };
    const answer = await app.inject({
      method,
      url,
      headers: { ...(fields ? form : {}), ...headers },
      ...(from ? { remoteAddress: from } : {}),
      ...(fields ? { payload: new URLSearchParams(fields).toString() } : {}),
    });
    const cookie = [answer.headers['set-cookie'] ?? ''].flat().join('; ');
    return {
      status: answer.statusCode,
      headers: answer.headers,
      text: answer.payload,
      setCookie: cookie,
      cookie: cookie.split(';')[0] ?? '',
      location: String(answer.headers.location ?? ''),
    };
  };
  const code = app.get(Door).setupCode;
  return {
    app,
    clock,
    code,
    ask,
    get: (url: string, headers: Record<string, string> = {}) => ask('GET', url, { headers }),
    post: (url: string, fields: Record<string, string>, more: Omit<Asked, 'fields'> = {}) =>
      ask('POST', url, { fields, ...more }),
    close: async () => {
      await app.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
};

export type OpenDoor = Awaited<ReturnType<typeof openDoor>>;
