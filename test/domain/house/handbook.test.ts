import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CHAPTERS, chaptersFound } from '../../../src/domain/house/handbook.js';

describe('the handbook', () => {
  it('has a template for every chapter', () => {
    for (const { slug } of CHAPTERS)
      expect([slug, existsSync(`templates/handbook/${slug}.hbs`)]).toEqual([slug, true]);
    expect(new Set(CHAPTERS.map(({ slug }) => slug)).size).toBe(CHAPTERS.length);
  });

  it('is found by its words, all of them', () => {
    expect(chaptersFound('Backup').map(({ slug }) => slug)).toEqual(['the-house']);
    expect(chaptersFound('clock phone').map(({ slug }) => slug)).toEqual(['at-the-bench']);
    expect(chaptersFound('backup tape')).toEqual([]);
    expect(chaptersFound('handbook')).toHaveLength(CHAPTERS.length);
  });
});
