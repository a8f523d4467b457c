import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A file system of a few megabytes. */
export type SmallDisk = {
  readonly folder: string;
  /** Leaves room for so many blocks only. @returns what makes room again */
  fill(blocks: number): () => void;
  leave(): void;
};

/** Mounts a file system of a few megabytes; only root of a Linux may, so nobody else gets one. */
export const smallDisk = (megabytes: number): SmallDisk | undefined => {
  const folder = mkdtempSync(join(tmpdir(), 'bastings-small-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder], { stdio: 'ignore' });
  } catch {
    rmSync(folder, { recursive: true });
    return undefined;
  }
  const ballast = join(folder, 'ballast');
  return {
    folder,
    fill: (blocks) => {
      const { bavail, bsize } = statfsSync(folder);
      writeFileSync(ballast, Buffer.alloc(Math.max(0, bavail - blocks) * bsize));
      return () => rmSync(ballast);
    },
    leave: () => {
      execFileSync('umount', [folder]);
      rmSync(folder, { recursive: true });
    },
  };
};
