import { Trouble } from '../../domain/kernel/errors.js';
import { faultWords } from '../../web/manners/fault-words.js';
import { ConfigFault, readConfig } from '../config.js';

/** Runs one command on the studio's data. */
const run = async ([command, ...rest]: readonly string[]): Promise<string[]> => {
  const config = readConfig(process.env);
  const { backUp, restore } = await import('./keep-safe.js');
  if (command === 'backup' && rest.length === 0) return backUp(config);
  if (command === 'restore' && rest[0] && rest.length === 1)
    return restore(config, rest[0], process.env.INIT_CWD);
  if ((command === 'export' || command === 'import') && rest[0] && rest.length === 1) {
    const { carryIn, carryOut } = await import('./carry.js');
    return (command === 'export' ? carryOut : carryIn)(config, rest[0], process.env.INIT_CWD);
  }
  if (command === 'move' && rest[0] === '--to' && rest[1] && rest.length === 2) {
    const { move } = await import('./move.js');
    return move(config, rest[1], process.env.INIT_CWD);
  }
  throw new ConfigFault(
    [
      'Write one of:',
      '  npm run backup',
      '  npm run restore -- BACKUP',
      '  npm run export -- FILE.zip',
      '  npm run import -- FILE.zip',
      '  npm run move -- --to postgres://… (or a file)',
    ].join('\n'),
  );
};

run(process.argv.slice(2)).then(
  (lines) => {
    for (const line of lines) console.log(line);
  },
  (error: unknown) => {
    const { name, message, stack } = faultWords(error);
    const isMeant = error instanceof Trouble || error instanceof ConfigFault;
    console.error(isMeant ? error.message : `${name}: ${message}\n${stack}`);
    process.exitCode = 1;
  },
);
