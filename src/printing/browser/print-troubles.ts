import { Conflict } from '../../domain/kernel/errors.js';

/** The browser hung, died or would not start; the paper was not made, and nothing else was lost. */
export class PrintingFailed extends Conflict {
  constructor(why: string, cause?: unknown) {
    super(`The paper could not be printed: ${why} Nothing was lost; try again.`, 'printing-failed');
    this.cause = cause;
  }
}

/** There is no browser on this machine. Everything but printing works without one. */
export class NoBrowser extends Conflict {
  constructor() {
    const named = process.env.PUPPETEER_EXECUTABLE_PATH;
    super(
      named
        ? `No browser stands at ${named}, which PUPPETEER_EXECUTABLE_PATH names. Correct it or unset it, then try again.`
        : 'Printing needs a browser and none was found. Install Chrome, Chromium or Edge (on Debian: ' +
            'apt-get install chromium; anywhere: npx puppeteer browsers install chrome), or set ' +
            'PUPPETEER_EXECUTABLE_PATH to one, then try again.',
      'no-browser',
    );
  }
}
