import { ConfigFault, configWords, readConfig } from './app/config.js';
import { faultWords } from './web/manners/fault-words.js';

/** Starts the studio's server and says where it is. */
const start = async (): Promise<void> => {
  const config = readConfig(process.env);
  const { openStudio } = await import('./app/open-studio.js');
  for (const line of configWords(config)) console.log(line);
  await openStudio(config);
};

start().catch((error: unknown) => {
  const { name, message, stack } = faultWords(error);
  console.error(error instanceof ConfigFault ? error.message : `${name}: ${message}\n${stack}`);
  process.exitCode = 1;
});
