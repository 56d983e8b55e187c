import { strict as assert } from 'node:assert';
import { fieldsOf, isBlank, isComment, uncommented } from '../../../src/readers/text/fields.ts';

describe('the fields of a line', () => {
  it('are what stands between delimiters, blanks and empty ones included', () => {
    assert.deepEqual(fieldsOf('0.1, 0.2,,x', ','), ['0.1', ' 0.2', '', 'x']);
    assert.deepEqual(fieldsOf('0,1;0,2', ';'), ['0,1', '0,2']);
    assert.deepEqual(fieldsOf(' a\t b ', '\t'), [' a', ' b ']);
  });

  it('are parted by any run of blanks and tabs where a blank is the delimiter', () => {
    assert.deepEqual(fieldsOf('  0.1 \t 0.2   0.3  ', ' '), ['0.1', '0.2', '0.3']);
    assert.deepEqual(fieldsOf('   ', ' '), ['']);
  });

  it('may be quoted, and then hold delimiters and quotes', () => {
    assert.deepEqual(fieldsOf('"a, b","say ""x""",c', ','), ['a, b', 'say "x"', 'c']);
    assert.deepEqual(fieldsOf(' "a b" \t c  "d" ', ' '), ['a b', 'c', 'd']);
  });

  it('may be padded with blanks about their quotes', () => {
    assert.deepEqual(fieldsOf('"a" , "b,c" ,d', ','), ['a', 'b,c', 'd']);
    assert.deepEqual(fieldsOf('  "a";  "b"  ', ';'), ['a', 'b']);
  });
});

describe('a line of comment', () => {
  it('begins with a mark, after blanks too', () => {
    for (const mark of ['#', '%', '//', '!', '*', '###', '  # '])
      assert.deepEqual([isComment(`${mark}note`), uncommented(`${mark}note`)], [true, 'note'], mark);
    for (const line of ['a # b', '/ a', '-- a', ''])
      assert.deepEqual([isComment(line), uncommented(line)], [false, line], line);
  });

  it('keeps what stands further in than one blank behind the mark', () => {
    assert.equal(uncommented('#   rate: 100'), '  rate: 100');
    assert.equal(uncommented('# 12 # 13'), '12 # 13');
  });
});

describe('a blank line', () => {
  it('has nothing but blanks, tabs and line ends', () => {
    assert.deepEqual(
      ['', ' \t\r', '0', ' # '].map((line) => isBlank(line)),
      [true, true, false, false],
    );
  });
});
