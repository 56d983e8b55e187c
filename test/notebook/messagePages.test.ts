import { strict as assert } from 'node:assert';
import { notebookPages } from '../../src/notebook/messagePages.ts';
import { parseNotebook } from '../../src/notebook/parse.ts';

/** The codes that a file of this text is opened with. What stands in the reference as � is a letter in Latin-1. */
function codesOf(text: string): string[] {
  const bytes = text.includes('\uFFFD') ? Buffer.from(text.replace('\uFFFD', 'ß'), 'latin1') : Buffer.from(text);
  const found = parseNotebook(bytes);
  return found.ok ? found.value.notices.map(({ code }) => code) : [found.failure.code];
}

describe('the page of a message about a notebook’s file', () => {
  for (const [code, { wrong, right, title, why }] of Object.entries(notebookPages)) {
    it(`${code} has a wrong example that gives it, and a right one that gives nothing`, () => {
      assert.deepEqual(codesOf(wrong), [code]);
      assert.deepEqual(codesOf(right), []);
      assert.match(title, /^[A-Z].*[^.]$/);
      assert.match(why, /^[A-Z].*\.$/);
    });
  }
});
