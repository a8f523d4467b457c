import { Trouble } from '../../domain/kernel/errors.js';
import { faultWords } from '../../web/manners/fault-words.js';
import { ConfigFault, readConfig } from '../config.js';

/** Runs one command on the studio's data: `backup`, `restore` with a file, `move` with a place. */
const run = async ([command, ...rest]: readonly string[]): Promise<string[]> => {
  const config = readConfig(process.env);
  const { backUp, restore } = await import('./keep-safe.js');
  if (command === 'backup' && rest.length === 0) return backUp(config);
  if (command === 'restore' && rest[0] && rest.length === 1)
    return restore(config, rest[0], process.env.INIT_CWD);
  if (command === 'move' && rest[0] === '--to' && rest[1] && rest.length === 2) {
    const { move } = await import('./move.js');
    return move(config, rest[1], process.env.INIT_CWD);
  }
  throw new ConfigFault(
    'Write “npm run backup”, or “npm run restore -- ” and the name of a backup, or “npm run move -- --to ” and an address that begins with postgres:// or the name of a file.',
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
