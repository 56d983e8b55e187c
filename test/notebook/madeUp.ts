import fc from 'fast-check';

/** Lines that begin, end, hide or resemble fences. */
const lines = [
  ...[
    '```washboard',
    '```',
    '~~~washboard',
    '~~~',
    '````',
    '````washboard fold',
    '``` washboard',
    '```js',
    '```washboardx',
  ],
  ...[
    '   ```washboard',
    '  ```washboard',
    '    ```washboard',
    '  ```',
    '    ```',
    '   ~~~',
    '> ```washboard',
    '- ```washboard',
  ],
  ...[
    '1. ```washboard',
    '~~~ a`b',
    '``` a`b',
    '``` Washboard',
    '      ```washboard',
    '\t```washboard',
    'a = 1 s',
    'text',
  ],
  ...[
    '',
    '',
    '',
    '  ',
    '\t',
    '- item',
    '-',
    '1. one',
    '2. two',
    '> quote',
    '>',
    '  - nested',
    '\t- tab',
    '-\ttab',
    '>\tq',
    '> > qq',
  ],
  ...[
    '- - x',
    '+ a',
    '+',
    '     deep',
    '    code',
    '\tcode',
    '# head',
    '---',
    '===',
    '***',
    '* * *',
    '[a]: /u',
    '[a]: /u "t"',
  ],
  ...[
    '<div>',
    '</div>',
    '<!--',
    '-->',
    '<!-- x -->',
    '<x>',
    '<pre>',
    '</pre>',
    '<?php',
    '?>',
    '<details>',
    '<![CDATA[',
    ']]>',
  ],
  ...[
    '<!X',
    '<a href="x">',
    '</a>',
    '\f',
    '\u00a0',
    '\u2028',
    'é 𝄞',
    '\0',
    'a | b\n--|--',
    '| a |\n|:-:|\n| 1 |',
    'end\\',
  ],
];

const line = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...lines) },
  { weight: 1, arbitrary: fc.string({ maxLength: 8, unit: 'binary' }).map((text) => text.replace(/[\r\n]/g, '')) },
  {
    weight: 2,
    arbitrary: fc.tuple(fc.nat(3), fc.constantFrom(...lines)).map(([indent, text]) => ' '.repeat(indent) + text),
  },
);

const ends = fc.oneof(
  { weight: 6, arbitrary: fc.constant(['\n']) },
  { weight: 2, arbitrary: fc.constant(['\r\n']) },
  { weight: 1, arbitrary: fc.constant(['\n', '\r\n', '\r']) },
);

/** A made-up file: valid UTF-8 of any line ends, with and without a byte order mark and a last line end. */
export const madeUpFile = fc
  .record({
    bom: fc.boolean(),
    lines: fc.array(line, { maxLength: 14 }),
    ends,
    picks: fc.array(fc.nat(2), { minLength: 32, maxLength: 32 }),
    lastEnd: fc.boolean(),
  })
  .map(({ bom, lines, ends, picks, lastEnd }) => {
    const all = lines.join('\n').split('\n');
    const end = (at: number): string => ends[picks[at % picks.length] % ends.length];
    const text = all.map((line, at) => line + (at < all.length - 1 || lastEnd ? end(at) : '')).join('');
    return (bom ? '\ufeff' : '') + text;
  });

/** The text of a cell as an author may leave it: any lines, joined by line feeds. */
export const madeUpText = fc.array(line, { maxLength: 5 }).map((lines) => lines.join('\n').replace(/\r/g, ''));
