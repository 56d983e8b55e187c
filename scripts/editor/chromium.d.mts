export function findChromium(): string | null;
export function ensureChromium(say?: (line: string) => void): string;
export const chromiumArgs: string[];
