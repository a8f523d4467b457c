/** What a person does to a page, whatever they do it with: a finger on a phone without script, or keys alone. */
export type Hand = {
  /** Where they stand: path and query. */
  readonly path: string;
  open(path: string): Promise<unknown>;
  /** Writes into a field by its name, in the place of what stands there. */
  write(field: string, text: string): Promise<void>;
  /** Chooses one of a list by its value. */
  choose(field: string, value: string): Promise<void>;
  /** Picks one of a few, all in sight, by its value. */
  pick(field: string, value: string): Promise<void>;
  /** Ticks a box by the words beside it, or those they begin with. */
  tickBeside(words: string): Promise<void>;
  /** Ticks every box of the page that is not ticked. */
  tickAll(): Promise<void>;
  /** Presses a button by its words, or by those it begins with, and waits for the page that follows. */
  press(words: string): Promise<void>;
  /** Follows a link by its words. */
  follow(words: string): Promise<void>;
  /** Everything readable on the page. */
  text(): Promise<string>;
};
