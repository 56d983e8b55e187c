/** A file, or what is worth showing of it, and the line that loads it. `…` stands for rows like those before. */
export interface ReaderExample {
  readonly file: string;
  readonly load: string;
}

/** A code's page in the reference: what it means, a file and a line that have it, and the same put right. */
export interface ReaderPage {
  readonly title: string;
  readonly why: string;
  readonly wrong: ReaderExample;
  readonly right: ReaderExample;
}

export type Pages<Facts> = { readonly [Code in keyof Facts]: ReaderPage };

/** An example; the usual line where none is given. */
export const example = (file: string, load = 'load "run.csv"'): ReaderExample => ({ file, load });

/** The header of a sound recording. */
export const header = 't (s),x (g),y (g),z (g)';

/** Rows of a sound recording at 100 Hz, parted by a mark, from one row on. */
export const rows = (count = 4, mark = ',', from = 0): string =>
  Array.from({ length: count }, (_, k) => {
    const i = k + from;
    return [`0.0${i}`, `0.0${i % 3}`, `0.0${(i + 1) % 3}`, ['1.00', '0.98', '1.01'][i % 3]].join(mark);
  }).join('\n');

/** A sound recording. */
export const sound = `${header}\n${rows()}`;
