import { strict as assert } from 'node:assert';
import ts from 'typescript';
import { pagedCodes } from '../../src/editor/pagedCodes.ts';
import { filesOf, sourceOf } from '../house/sources.ts';

/** Rooms whose codes no reader meets, and why. */
const roomsWithout = {
  cli: 'a command tells the sentence of its wrong use alone',
  editor: 'the editor tells the sentence alone',
  files: 'a command tells the sentence of its wrong settings alone',
};

/** Codes without a page, and why. */
const codesWithout: Readonly<Record<string, readonly string[]>> = {
  'a command tells the sentence alone': [
    'disk.failed',
    'history.file',
    'history.none',
    'history.revision',
    'record.incomplete',
    'record.json',
    'record.object',
    'record.tool',
    'record.version',
    'write.failed',
    'write.foreign',
    'write.kept',
    'write.other',
  ],
  'a part of the sentence of a result, which names no code': [
    ...[
      'lower',
      'higher',
      'equivalent',
      'not-shown',
      'apart',
      'other-days',
      'unplanned',
      'withheld',
      'interaction',
    ].map((one) => `result.${one}`),
    ...['one-run-each', 'few-runs', 'no-scatter', 'agrees', 'disagrees', 'loggers', 'pooled', 'pooled-guard'].map(
      (one) => `result.${one}`,
    ),
    ...['metric', 'channel', 'confidence', 'margin', 'method', 'primary'].map((one) => `deviation.${one}`),
    ...['bands-added', 'bands-missing', 'runs', 'order', 'excluded'].map((one) => `deviation.${one}`),
    ...['adjust', 'all-pairs', 'baseline', 'conditions', 'within'].map((one) => `deviation.${one}`),
    ...['speeds', 'fault', 'floor', 'noise', 'rounding', 'clipped', 'band', 'compared'].map((one) => `guard.${one}`),
  ],
  'a part of the sentence of runs.excluded': ['runs.missing'],
  'a clause of a look at a file, or of the sentence of no-rate': [
    ...['backward', 'counter', 'dates', 'empty', 'fraction', 'gaps', 'nested'].map((one) => `column.${one}`),
    ...['no-number', 'off-rate', 'other-time', 'raw', 'sensor', 'text', 'type'].map((one) => `column.${one}`),
  ],
  'a fault of the program or of the machine, which no cell is to blame for': [
    'engine.failed',
    'internal',
    'machine.memory',
    'machine.refused',
  ],
  'a chart tells the sentence alone': [
    ...['handle.gone', 'handle.unit'],
    ...['gone', 'locked', 'short', 'unfit'].map((one) => `making.${one}`),
  ],
  'of a notebook that lies in no folder yet, whatever its cells say': ['file.unsaved'],
  'of a number in prose, where the sentence stands': [
    ...['differs', 'dimension', 'kind', 'number', 'unit'].map((one) => `prose.${one}`),
  ],
  'of a statement that waits for its run, which nobody is shown': ['call.later'],
  'what the checker of the text says first': ['field.kind', 'quantity.expected', 'statement.empty'],
  'what reading the file says first': ['resample.empty'],
};

/** The codes that a file has sentences for: the keys of what is typed as such, or given to `messages`. */
function codesOf(file: string): string[] {
  const source = sourceOf(file);
  const codes: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isObjectLiteralExpression(node) && isOfSentences(node, source))
      codes.push(...node.properties.flatMap(({ name }) => (name === undefined ? [] : name.getText(source))));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return codes.map((code) => code.replaceAll("'", ''));
}

function isOfSentences(node: ts.ObjectLiteralExpression, source: ts.SourceFile): boolean {
  const { parent } = node;
  if (ts.isCallExpression(parent))
    return parent.expression.getText(source) === 'messages' && parent.arguments[0] === node;
  return ts.isVariableDeclaration(parent) && /^Sentences</.test(parent.type?.getText(source) ?? '');
}

const told = filesOf('src').flatMap((file) => codesOf(file).map((code) => ({ room: file.split('/')[1], code })));

describe('every code that a reader can meet', () => {
  const excepted = new Set(Object.values(codesWithout).flat());

  it('has a page in the reference, but for those that are excepted', () => {
    assert.ok(told.length > 300, `${told.length}`);
    const without = told.filter(({ room, code }) => !(room in roomsWithout) && !pagedCodes.has(code));
    assert.deepEqual([...new Set(without.map(({ code }) => code))].sort(), [...excepted].sort());
  });

  it('has one sentence in each room', () => {
    const keys = told.map(({ room, code }) => `${room} ${code}`);
    assert.deepEqual(
      keys.filter((key, index) => keys.indexOf(key) !== index),
      [],
    );
  });

  it('has a sentence that its page is of', () => {
    const codes = new Set(told.map(({ code }) => code));
    assert.deepEqual(
      [...pagedCodes].filter((code) => !codes.has(code)),
      [],
    );
  });
});
