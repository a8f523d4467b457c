import type { DataHome } from '../../connection/data-source.js';

/** What is exported, and the studio's own folder that an export is written into. */
export class ExportPlace {
  constructor(
    readonly home: DataHome,
    readonly folder: string,
  ) {}
}
