const STEPS = [
  ['GB', 1e9],
  ['MB', 1e6],
  ['kB', 1e3],
] as const;

/** How large a file is: `812 bytes`, `1.2 MB`. @see IEC 80000-13: kB, MB and GB are powers of a thousand */
export const sizeInWords = (bytes: number): string => {
  for (const [unit, size] of STEPS) {
    if (bytes >= size) return `${(bytes / size).toFixed(1).replace('.0', '')} ${unit}`;
  }
  return bytes === 1 ? '1 byte' : `${bytes} bytes`;
};
