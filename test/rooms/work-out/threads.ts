/**
 * Node 20 runs no TypeScript, and the tests run the source as it stands: from here on threads are started with hooks
 * that find `./x.ts` for `./x.js` and take the types off.
 */
process.execArgv.push('--import', new URL('./typescript-threads.mjs', import.meta.url).href);
