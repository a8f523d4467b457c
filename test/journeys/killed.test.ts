import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type KilledStudio, killAndLook } from '../bench/killed/kill-and-look.mjs';
import { fillKillable } from '../bench/killed/killable-studio.mjs';
import { openTestStudio } from '../support/studio.js';

let studio: KilledStudio;

beforeAll(async () => {
  const open = await openTestStudio();
  const filled = await fillKillable(async (method, path, body) => {
    const answer = await open.api(method, path, body);
    return { status: answer.status, json: answer.json() };
  });
  const folder = mkdtempSync(join(tmpdir(), 'bastings-killed-'));
  await open.closeInto((from) => cpSync(from, folder, { recursive: true }));
  studio = { folder, token: open.token, ...filled };
});
afterAll(() => studio && rmSync(studio.folder, { recursive: true, force: true }));

/** The bench kills it 200 times. */
it('loses nothing that was acknowledged, and does nothing twice, however often the process is killed', async () => {
  const { acknowledged, sentAgain, breaches } = await killAndLook(studio, { times: 5, seed: 20_260_302 });
  expect(breaches).toEqual([]);
  expect(acknowledged).toBeGreaterThan(30);
  expect(sentAgain).toBeGreaterThan(0);
}, 240_000);
