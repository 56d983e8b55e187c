import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { exitForFault } from '../../src/cli/fault.ts';

describe('what ends a command before its time', () => {
  const told = (error: unknown): { code: number; said: string } => {
    const { write } = process.stderr;
    let said = '';
    process.stderr.write = ((text: string) => ((said += text), true)) as typeof write;
    try {
      return { code: exitForFault(error), said };
    } finally {
      process.stderr.write = write;
    }
  };

  it("is no fault of the program's where the system refused", () => {
    try {
      readFileSync('no such folder/a.csv');
      assert.fail('it was read');
    } catch (error) {
      assert.deepEqual(told(error), {
        code: 2,
        said: 'washboard: the system refused no such folder/a.csv: it is not there.\n',
      });
    }
    const worn = Object.assign(new Error('EIO: i/o error, read'), { code: 'EIO', syscall: 'read' });
    assert.deepEqual(told(worn), {
      code: 2,
      said: 'washboard: the system refused an operation on a file: it says EIO.\n',
    });
  });

  it('is a fault of the program, with the place of it, where it is one', () => {
    const { code, said } = told(new TypeError('a bug'));
    assert.equal(code, 70);
    assert.match(said, /this is a fault of the program: TypeError: a bug\n.*at /);
  });
});
