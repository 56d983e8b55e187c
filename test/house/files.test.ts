import { basename } from 'node:path';
import { assertNoneBut, exceptions } from './exceptions.ts';
import { filesOf, sourceOf } from './sources.ts';

const files = filesOf('src');

describe('a file of src', () => {
  it('has its name in camelCase', () => {
    assertNoneBut(
      exceptions.otherCase,
      files.filter((file) => !/^[a-z][a-zA-Z0-9]*(\.d)?\.ts$/.test(basename(file))),
    );
  });

  it('has no more than 400 lines', () => {
    assertNoneBut(
      [],
      files.filter((file) => sourceOf(file).getLineStarts().length - 1 > 400),
    );
  });
});
