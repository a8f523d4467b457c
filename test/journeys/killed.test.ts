import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type KilledStudio, killAndLook } from '../bench/killed/kill-and-look.mjs';
import { fillKillable } from '../bench/killed/killable-studio.mjs';
import { openTestStudio } from '../support/studio.js';

let studios: KilledStudio[] = [];

beforeAll(async () => {
  const open = await openTestStudio();
  const filled = await fillKillable(async (method, path, body) => {
    const answer = await open.api(method, path, body);
    return { status: answer.status, json: answer.json() };
  });
  const folders = [1, 2].map(() => mkdtempSync(join(tmpdir(), 'bastings-killed-')));
  await open.closeInto((from) => {
    for (const folder of folders) cpSync(from, folder, { recursive: true });
  });
  studios = folders.map((folder) => ({ folder, token: open.token, ...filled }));
});
afterAll(() => {
  for (const { folder } of studios) rmSync(folder, { recursive: true, force: true });
});

/** 25 kills, in two studios at the same time: most of a kill is the start after it. The bench kills 200 times. */
it('loses nothing that was acknowledged, and does nothing twice, however often the process is killed', async () => {
  const kills = await Promise.all(
    studios.map((studio, place) => killAndLook(studio, { times: 13 - place, seed: 20_260_302 + place })),
  );
  expect(kills.flatMap(({ breaches }) => breaches)).toEqual([]);
  expect(kills.reduce((sum, { acknowledged }) => sum + acknowledged, 0)).toBeGreaterThan(40);
  expect(kills.reduce((sum, { sentAgain }) => sum + sentAgain, 0)).toBeGreaterThan(0);
}, 240_000);
