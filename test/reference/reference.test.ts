import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { anchorOf } from '../../src/editor/language/anchor.ts';
import { Engine } from '../../src/engine/engine.ts';
import { messagePages } from '../../src/language/messagePages.ts';
import { readerPages } from '../../src/readers/messagePages.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';
import { callPages, recordingPages } from '../../src/verbs/messagePages.ts';
import { quietWatch } from '../engine/memoryFiles.ts';
import { exampleHost } from '../verbs/exampleHost.ts';

// By its address, since the scripts are a TypeScript project of their own.
const { codesModule, reference } = (await import(
  new URL('../../scripts/reference/reference.ts', import.meta.url).href
)) as {
  codesModule: () => string;
  reference: () => string;
};
const { simulatedSentence } = (await import(new URL('../../scripts/reference/simulated.ts', import.meta.url).href)) as {
  simulatedSentence: (results?: string) => string;
};
const text = reference();
const headings = [...text.matchAll(/^#{1,3} (.*)$/gm)].map(([, title]) => title);

/** Cells that are said to be right, without those that the verbs' and functions' own test runs. */
function examples(): readonly string[] {
  const elsewhere = new Set([
    ...catalogue.verbs.flatMap((form) => form.examples),
    ...catalogue.functions.map((form) => form.example),
  ]);
  const cells = [...text.matchAll(/(Wrong:\n\n)?^```washboard\n([^]*?)\n```/gm)]
    .filter(([, wrong]) => wrong === undefined)
    .map(([, , cell]) => cell);
  return [...new Set(cells)].filter((cell) => !elsewhere.has(cell));
}

describe('the language reference', () => {
  it('is current: `npm run reference` writes what stands in media/reference.md', () => {
    const file = readFileSync(new URL('../../media/reference.md', import.meta.url), 'utf8');
    assert.equal(file, text);
    const paged = readFileSync(new URL('../../src/editor/pagedCodes.ts', import.meta.url), 'utf8');
    assert.equal(paged, codesModule());
  });

  it('has a heading for every verb, function and message code, each with an anchor of its own', () => {
    const wanted = [
      ...catalogue.verbs.map(({ verb }) => verb),
      ...catalogue.functions.map(({ name }) => name),
      ...Object.keys({ ...messagePages, ...readerPages, ...callPages, ...recordingPages }),
    ];
    assert.deepEqual(
      wanted.filter((title) => !headings.includes(title)),
      [],
    );
    const anchors = headings.map(anchorOf);
    assert.deepEqual(
      anchors.filter((anchor, index) => anchors.indexOf(anchor) !== index),
      [],
    );
  });

  it('links to nothing that is not there', () => {
    const anchors = new Set(headings.map(anchorOf));
    const links = [...text.matchAll(/\]\(#([^)]*)\)/g)].map(([, anchor]) => anchor);
    assert.ok(links.length > catalogue.verbs.length);
    assert.deepEqual(
      links.filter((anchor) => !anchors.has(anchor)),
      [],
    );
  });

  it('tells each option of each verb, with its default', () => {
    for (const { verb, options } of catalogue.verbs) {
      const [, section] = text.split(`\n### ${verb}\n`);
      for (const { keyword, default: given } of options) {
        const row = section.split('\n').find((line) => line.startsWith(`| \`${keyword}\` |`));
        assert.ok(row, `${verb} ${keyword}`);
        if (given !== undefined) assert.ok(row.includes(`\`${given}\``), row);
      }
    }
  });

  describe('as its examples run', () => {
    // One engine, so that the recordings are read once.
    const engine = new Engine(exampleHost());
    for (const example of examples()) {
      it(example.split('\n').at(-1) ?? '', async () => {
        const report = await engine.run({ cells: [example], wanted: 'all' }, quietWatch);
        assert.deepEqual(
          report.results.flatMap(({ error }) => error?.message ?? []),
          [],
          example,
        );
        assert.ok(report.results.length > 0);
      });
    }
  });
});

describe('what the reference says of the simulation', () => {
  const results = readFileSync(new URL('../../scripts/simulate/RESULTS.md', import.meta.url), 'utf8');

  it('names under compare every case that the results have outside their limits, with its figures', () => {
    const sentence = simulatedSentence();
    const [, compareSection] = /\n### compare\n([^]*?)\n### /.exec(text) ?? [];
    assert.ok(compareSection?.includes(sentence));
    assert.match(text, /\n### claim\n[^]*by simulation, stands under \[compare\]\(#compare\)/);
    const broken = [...results.matchAll(/^- .*?([\d.]+) %, (?:not within|more than)/gm)].map(([, found]) => found);
    assert.ok(broken.length > 0);
    for (const found of broken) assert.ok(sentence.includes(` ${found} %`), found);
    const strata = [...results.matchAll(/ runs each in every one[^|]*\|[^|]*\|.*\| +([\d.]+) \|$/gm)].map(([, found]) =>
      Number(found),
    );
    const worst = Math.max(...strata);
    assert.ok(Number.isFinite(worst), 'the table of single strata');
    assert.equal(sentence.includes(`up to ${worst.toFixed(1)} % of studies`), worst > 5.5);
  });

  it('follows the results, and has no word for a miss that nobody described', () => {
    const worse = results.replaceAll('coverage 93.4 %', 'coverage 91.2 %');
    assert.match(simulatedSentence(worse), /91\.2 % of the intervals hold the true change \(goal: 93\.5 to 97\.5 %\)/);
    const none = results
      .replace(/^Outside the limits:\n\n(?:- .*\n)+/gm, '')
      .replace(/^\| (?:hump|\d.*strata).*\n/gm, '');
    assert.match(simulatedSentence(none), /: every case meets its goal\.$/);
    const other = results.replace(/^- 2 bands/m, '- 2 somethings');
    assert.throws(() => simulatedSentence(other), /no words for "2 somethings/);
  });
});
