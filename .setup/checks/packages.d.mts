/** Every package that is installed with the program, with the licence it tells of itself. */
export function installedPackages(): { name: string; version: string; licence: string }[];
