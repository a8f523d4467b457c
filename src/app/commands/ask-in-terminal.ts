import { createInterface } from 'node:readline/promises';
import { Writable } from 'node:stream';

/** Asks for a passphrase without showing it; takes the first line where nobody sits at the terminal. */
export const askInTerminal = async (): Promise<string> => {
  const { stdin, stderr } = process;
  if (stdin.isTTY) stderr.write('Passphrase of the backup: ');
  const silent = new Writable({ write: (_chunk, _encoding, done) => done() });
  const reader = createInterface({ input: stdin, output: silent, terminal: stdin.isTTY });
  try {
    for await (const line of reader) return line;
    return '';
  } finally {
    reader.close();
    if (stdin.isTTY) stderr.write('\n');
  }
};
