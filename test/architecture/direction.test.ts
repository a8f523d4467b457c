import { describe, expect, it } from 'vitest';
import { readPlanted, rules } from '../../.setup/checks/direction.mjs';
import { stillSteps } from '../../.setup/checks/steps.mjs';

const there = 'export const there = 1;\n';

/** For each rule one small tree that breaks it and nothing else. */
const planted: Record<string, Record<string, string>> = {
  'domain-is-pure': {
    'src/domain/pricing/price.ts':
      "import { readFileSync } from 'node:fs';\nexport const price = readFileSync;\n",
  },
  'storage-looks-inwards': {
    'src/storage/book.ts': "export { there } from '../printing/paper.js';\n",
    'src/printing/paper.ts': there,
  },
  'printing-looks-inwards': {
    'src/printing/paper.ts': "import type { Row } from '../storage/row.js';\nexport type Paper = Row;\n",
    'src/storage/row.ts': 'export type Row = string;\n',
  },
  'web-looks-inwards': {
    'src/web/reply.ts': "export const reply = () => import('../rooms/bench/entry.js');\n",
    'src/rooms/bench/entry.ts': there,
  },
  'rooms-looks-inwards': {
    'src/rooms/bench/entry.ts': "export { there } from '../../app/module.js';\n",
    'src/app/module.ts': there,
  },
  'rooms-keep-their-doors-shut': {
    'src/rooms/bench/entry.ts': "export { there } from '../clients/client.js';\n",
    'src/rooms/clients/client.ts': there,
  },
  'main-is-the-front-door': {
    'src/app/module.ts': "export { there } from '../main.js';\n",
    'src/main.ts': there,
  },
  'no-package-for-development': { 'src/app/module.ts': "export { it } from 'vitest';\n" },
  'imports-lead-somewhere': { 'src/app/module.ts': "export { there } from './nowhere.js';\n" },
};

describe('the direction of imports', () => {
  it('has a planted violation for every rule', () => {
    expect(Object.keys(planted)).toEqual(rules);
  });

  it.each(Object.entries(planted))('%s catches what breaks it', async (rule, files) => {
    const { wrong } = await readPlanted(files);
    expect(wrong.map((each) => each.rule)).toEqual([rule]);
    expect(wrong[0]?.sentence).toContain('imports');
  });

  it('lets through what it should', async () => {
    const { files, wrong } = await readPlanted({
      'src/main.ts': "import './app/module.js';\n",
      'src/app/module.ts': "export { there } from '../rooms/bench/entry.js';\n",
      'src/rooms/bench/entry.ts': "export { there } from './line.js';\nexport * from '../../web/reply.js';\n",
      'src/rooms/bench/line.ts': "export { there } from '../../storage/book.js';\n",
      'src/web/reply.ts': "export { there as page } from '../printing/paper.js';\n",
      'src/printing/paper.ts': "export { there } from '../domain/money.js';\n",
      'src/storage/book.ts':
        "export { there } from '../domain/money.js';\nexport { DataSource } from 'typeorm';\n",
      'src/domain/money.ts': "import { Decimal } from 'decimal.js';\nexport const there = new Decimal(1);\n",
    });
    expect(wrong).toEqual([]);
    expect(files).toBe(8);
  });

  it('is asked of every file of the house before any test runs', () => {
    expect(stillSteps.map(({ name }) => name)).toContain('direction of imports');
  });
});
