/** What answers have shown so far. */
export function openPool(): {
  links: Set<string>;
  look(type: string, text: string, url: string): void;
};
