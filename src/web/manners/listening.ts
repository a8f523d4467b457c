/** How this server is reached. */
export class Listening {
  /** @param overheard other computers can reach it, and nothing hides what passes between */
  constructor(readonly overheard: boolean) {}
}

/** What is said of it, in the terminal and in the House. */
export const OVERHEARD =
  'Other computers can reach this program, and without TLS anybody on the same network can read along.';
