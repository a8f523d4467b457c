import { existsSync, readFileSync } from 'node:fs';

/** Answers with the path of a browser that can print, or null. */
export type BrowserFinder = () => Promise<string | null>;

type Places = Partial<Record<string, string[]>>;

const list = new URL('../../../data/starter/browsers.json', import.meta.url);

const spelledOut = (place: string, environment: NodeJS.ProcessEnv): string | null => {
  let missing = false;
  const path = place.replace(/\{([^}]+)\}/g, (_, name: string) => {
    missing ||= !environment[name];
    return environment[name] ?? '';
  });
  return missing ? null : path;
};

const fromItsOwnStore = async (): Promise<string | null> => {
  try {
    const puppeteer = await import('puppeteer');
    return puppeteer.executablePath();
  } catch {
    return null;
  }
};

/**
 * Looks for a browser: PUPPETEER_EXECUTABLE_PATH alone when it is set (a wrong one is not papered over),
 * then the usual places of this system, then the browser that `npx puppeteer browsers install` fetched.
 */
export const findBrowser = async (
  environment: NodeJS.ProcessEnv = process.env,
  platform: string = process.platform,
): Promise<string | null> => {
  const named = environment.PUPPETEER_EXECUTABLE_PATH;
  if (named) return existsSync(named) ? named : null;
  const places = (JSON.parse(readFileSync(list, 'utf8')) as Places)[platform] ?? [];
  const standing = places
    .map((place) => spelledOut(place, environment))
    .find((path) => path && existsSync(path));
  if (standing) return standing;
  const own = await fromItsOwnStore();
  return own && existsSync(own) ? own : null;
};
