import type { DataSource, EntityManager } from 'typeorm';
import type { Reading } from './session.js';

/** What pages read from: on SQLite a second, read-only connection, so that they never see a write that has not ended. */
export class ReadSide implements Reading {
  constructor(private readonly source: DataSource) {}

  get manager(): EntityManager {
    return this.source.manager;
  }
}
