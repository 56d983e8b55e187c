import { strict as assert } from 'node:assert';
import { parseCell } from '../../src/language/parser.ts';
import { printCell } from '../../src/language/printer.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { catalogue } from './catalogue.ts';

const printed = (text: string): string => printCell(parseCell(text, vocabularyOf(catalogue)));

/** A cell and its canonical text, with ⏎ for a line's end. */
const cases: readonly (readonly [text: string, canonical: string])[] = [
  ['x=1', 'x = 1'],
  ['  x   =  1  ', 'x = 1'],
  ['trim r   5 .. 80   s', 'trim r 5..80 s'],
  ['x = max ( 1 ,2 )', 'x = max(1, 2)'],
  ['x = a [ 1 ].rms', 'x = a[1].rms'],
  ['x = ( a+b )*c', 'x = (a + b) * c'],
  ['x = - a', 'x = -a'],
  ['x = 5 s ^2', 'x = 5 s ^ 2'],
  ['x = (5 s) ^ 2', 'x = (5 s)^2'],
  ['x = 5 ± 3 %  dof 4', 'x = 5 ± 3 % dof 4'],
  ['load "a" channels x = "b"', 'load "a" channels x="b"'],
  ['plot third - octave', 'plot third - octave'],
  ['r|levels', 'r | levels'],
  ['r |⏎levels', 'r⏎  | levels'],
  ['r⏎|levels', 'r⏎  | levels'],
  ['r⏎⏎|levels', 'r⏎  | levels'],
  ['plot a,⏎b', 'plot a,⏎  b'],
  ['plot a , b', 'plot a, b'],
  ['x = (a⏎)', 'x = (a⏎)'],
  ['x = (⏎a⏎)', 'x = (⏎  a⏎)'],
  ['x = 1⏎⏎⏎⏎y = 2', 'x = 1⏎⏎y = 2'],
  ['x = 1⏎y = 2', 'x = 1⏎y = 2'],
  ['⏎⏎x = 1⏎⏎', 'x = 1'],
  ['# one  ⏎x = 1   # two  ', '# one⏎x = 1 # two'],
  ['x = 1⏎# two⏎⏎# three⏎y = 2', 'x = 1⏎# two⏎⏎# three⏎y = 2'],
  ['# one⏎⏎⏎# two', '# one⏎⏎# two'],
  ['x = 1 # one⏎# two', 'x = 1 # one⏎# two'],
  ['plot a, # one⏎b', 'plot a, # one⏎  b'],
  ['plot a,⏎# one⏎b', 'plot a,⏎  # one⏎  b'],
  ['plot a, # one⏎# two⏎b', 'plot a, # one⏎  # two⏎  b'],
  ['r | # one⏎levels', 'r⏎  | # one⏎  levels'],
  ['r # one⏎| levels', 'r # one⏎  | levels'],
  ['x = 1 §  2', 'x = 1 §  2'],
  ['plot a,,  b  ', 'plot a,,  b'],
  ['x  =  1⏎plot a,,  b⏎y  =  2', 'x = 1⏎plot a,,  b⏎y = 2'],
  ['plot (a,,⏎b  )  ', 'plot (a,,⏎b  )'],
  ['', ''],
  ['#', '#'],
];

describe('the canonical text of a cell', () => {
  for (const [text, canonical] of cases)
    it(`of ${text === '' ? 'nothing' : text}`, () => {
      const made = printed(text.replaceAll('⏎', '\n'));
      assert.equal(made.replaceAll('\n', '⏎'), canonical);
      assert.equal(printed(made), made);
    });

  it('keeps the line ends of its text', () => {
    assert.equal(printed('x=1\r\ny=2'), 'x = 1\r\ny = 2');
    assert.equal(printed('x=1\r\n\r\n\r\ny=2'), 'x = 1\r\n\r\ny = 2');
    assert.equal(printed('x=1\ry=2'), 'x = 1\ny = 2');
  });
});
