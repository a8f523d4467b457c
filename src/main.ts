import { ConfigFault, configWords, readConfig } from './app/config.js';
import { Trouble } from './domain/kernel/errors.js';

/** Starts the studio's server, or the demonstration's, and says where it is. */
const start = async (): Promise<void> => {
  const config = readConfig(process.env);
  // The browser that prints is another program, and inherits what stands here.
  delete process.env.BACKUP_PASSPHRASE;
  for (const line of configWords(config)) console.log(line);
  if (config.mode === 'demo') {
    const { openDemo } = await import('./app/demo/open-demo.js');
    await openDemo(config);
  } else {
    const { openStudio } = await import('./app/open-studio.js');
    await openStudio(config);
  }
};

start().catch((error: unknown) => {
  console.error(error instanceof ConfigFault || error instanceof Trouble ? error.message : error);
  process.exitCode = 1;
});
