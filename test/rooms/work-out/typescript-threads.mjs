import { register } from 'node:module';

/* Loaded into threads by --import. */
register('./typescript-hooks.mjs', import.meta.url);
