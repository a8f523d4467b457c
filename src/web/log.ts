import pino from 'pino';

/** What the program tells whoever runs it: one JSON line each, no secrets, no names of clients. The configuration sets its level. */
export const log = pino({ name: 'bastings' });
