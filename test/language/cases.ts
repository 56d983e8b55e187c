import { readFileSync } from 'node:fs';

/** The cases of a file of fixtures: a text at the margin, and below it, indented, what is to be said of it. */
export const casesIn = (file: string): readonly (readonly string[])[] =>
  readFileSync(new URL(`fixtures/${file}`, import.meta.url), 'utf8')
    .trimEnd()
    .split(/\n(?! )/)
    .map((block) => block.split('\n').map((line) => line.trim()));
