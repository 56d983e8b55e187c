/** A file that is made from a notebook, before it is written. */
export interface MadeFile {
  /** Its name within the folder. */
  readonly file: string;
  readonly content: string | Uint8Array;
  /** Index of the code cell that it is from, from 0. */
  readonly cell: number;
  /** What it holds, in words. */
  readonly title: string;
}

/** Names that some systems keep for devices. */
const reserved = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;

/**
 * The same with stems that are good as names of files on every system and differ in more than capitals: where two clash, the
 * later ones have `-2`, `-3` added.
 */
export function withOwnStems<T extends { readonly stem: string }>(items: readonly T[]): T[] {
  const taken = new Set<string>();
  return items.map((item) => {
    const plain = item.stem.replace(/[^\p{L}\p{N}_-]+/gu, '-').slice(0, 80);
    const stem = plain === '' || reserved.test(plain) ? `${plain}-` : plain;
    let own = stem;
    for (let number = 2; taken.has(own.toLowerCase()); number++) own = `${stem}-${number}`;
    taken.add(own.toLowerCase());
    return { ...item, stem: own };
  });
}
