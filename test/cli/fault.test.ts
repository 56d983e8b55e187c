import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
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

  it("is no fault of the program's where the memory ran out", () => {
    const { code, said } = told(new RangeError('Array buffer allocation failed'));
    assert.equal(code, 2);
    assert.match(said, /^washboard: the memory of this machine ran out: .*\.\n$/);
  });

  it('is a fault of the program where it is one, told in one line', () => {
    const { code, said } = told(new TypeError('a bug\nof two lines'));
    assert.equal(code, 70);
    assert.equal(said, 'washboard: this is a fault of the program: TypeError: a bug\\u000aof two lines\n');
  });

  it('is told in one line, too, where what is printed finds no room', function () {
    if (!existsSync('/dev/full')) return this.skip();
    const main = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));
    const full = openSync('/dev/full', 'w');
    const command = ['--import', 'tsx', main, '--help'];
    const { status, stderr } = spawnSync(process.execPath, command, { stdio: ['ignore', full, 'pipe'] });
    closeSync(full);
    assert.equal(String(stderr), 'washboard: the system refused an operation on a file: the disk is full.\n');
    assert.equal(status, 2);
  });
});
