import { readdirSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Backups } from '../../../src/storage/backup/backups.js';
import { smallDisk } from '../../support/small-disk.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

const disk = smallDisk(8);

describe.runIf(disk)('a disk without room for the backup', () => {
  const folder = disk?.folder ?? '';
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio({ BACKUP_DIR: folder });
  });
  afterAll(async () => {
    await studio.close();
    disk?.leave();
  });
  const backups = () => studio.app.get(Backups);
  const files = () => readdirSync(folder).filter((name) => name !== 'ballast');
  let makeRoom: (() => void) | undefined;

  it('keeps no half backup, says so, and the studio works on', async () => {
    const { name } = await backups().make();
    makeRoom = disk?.fill(20);
    await expect(backups().make()).rejects.toThrow(/room/);
    expect(files()).toEqual([name]);
    const page = (await studio.get('/house/backup')).text;
    expect(page).toMatch(/room/);
    expect((await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone' })).status).toBe(201);
  });

  it('is made again once there is room, and nothing is said any more', async () => {
    makeRoom?.();
    await backups().make();
    expect(files()).toHaveLength(2);
    expect((await studio.get('/house/backup')).text).not.toMatch(/no room/);
  });
});
