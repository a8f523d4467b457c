import { ConfigFault, configWords, readConfig } from './app/config.js';

/** Starts the studio's server and says where it is. */
const start = async (): Promise<void> => {
  const config = readConfig(process.env);
  const { openStudio } = await import('./app/open-studio.js');
  for (const line of configWords(config)) console.log(line);
  await openStudio(config);
};

start().catch((error: unknown) => {
  console.error(error instanceof ConfigFault ? error.message : error);
  process.exitCode = 1;
});
