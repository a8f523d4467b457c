/** The time zone the program was started in, for a studio that has not said its own yet. */
export class HomeZone {
  constructor(readonly zone: string) {}
}
