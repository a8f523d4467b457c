import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readConfig } from '../../../dist/app/config.js';
import { createApp } from '../../../dist/app/create-app.js';
import { loadHouse } from '../../../dist/app/demo/load-house.js';
import { Door } from '../../../dist/app/sign-in/door.js';
import { secretHash } from '../../../dist/app/sign-in/secrets.js';
import { accountBook } from '../../../dist/storage/books/account-book.js';
import { readStarter } from '../../../dist/storage/starter/read-starter.js';
import { UnitOfWork } from '../../../dist/storage/unit-of-work.js';
import { killAndLook } from './kill-and-look.mjs';
import { fillKillable } from './killable-studio.mjs';

/** How often the process is killed under writes. */
const TIMES = Number(process.env.KILLS ?? 200);
const OWNER = { name: 'Odalys Fenwright', passphrase: 'thimble wax needle chalk' };
const TOKEN = 'a-token-for-the-kills';

/** A studio on a folder of its own, filled and closed again. */
const fill = async (folder) => {
  const app = await createApp(
    readConfig({ DATA_DIR: folder, PORT: '0', LOG_LEVEL: 'error', TIME_ZONE: 'Europe/Dublin' }),
  );
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  const id = await app.get(Door).addOwner(OWNER.name, OWNER.passphrase);
  await app.get(UnitOfWork).write({ who: { id, name: OWNER.name } }, async (writing) => {
    const starter = await readStarter(fileURLToPath(new URL('../../../data/starter', import.meta.url)));
    await loadHouse(writing, { maker: OWNER.name, zone: 'Europe/Dublin', from: '2024-01-01', starter });
    await accountBook.addToken(writing, { accountId: id, name: 'kills', secretHash: secretHash(TOKEN) });
  });
  const filled = await fillKillable(async (method, url, payload) => {
    const headers = { authorization: `Bearer ${TOKEN}` };
    const answer = await app.inject({ method, url, headers, ...(payload ? { payload } : {}) });
    return { status: answer.statusCode, json: JSON.parse(answer.payload) };
  });
  await app.close();
  return { folder, token: TOKEN, ...filled };
};

/** Kills the server under writes and counts every promise it broke. */
export async function measureKills() {
  const folder = mkdtempSync(join(tmpdir(), 'bastings-kills-'));
  try {
    const studio = await fill(folder);
    const { acknowledged, sentAgain, breaches } = await killAndLook(studio, { times: TIMES, seed: 1 });
    for (const breach of breaches) process.stdout.write(`  ${breach}\n`);
    return [
      {
        what: `promises broken when killed ${TIMES} times under writes`,
        count: breaches.length,
        note: `SIGKILL at chance moments; ${acknowledged} acts acknowledged, ${sentAgain} sent again; nothing lost, nothing twice, one clock a person, stock = bought − issued and never below zero, numbers of clients and commissions unbroken`,
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
