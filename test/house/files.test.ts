import { basename } from 'node:path';
import { assertNoneBut, exceptions } from './exceptions.ts';
import { allFilesOf, filesOf, sourceOf } from './sources.ts';

const files = filesOf('src');

describe('a file of src, test or scripts', () => {
  it('has its name in camelCase', () => {
    assertNoneBut(
      exceptions.otherCase,
      ['src', 'test', 'scripts']
        .flatMap((folder) => allFilesOf(folder))
        .filter((file) => /\.([cm]?[jt]s|py)$/.test(file))
        .filter((file) => !/^[a-z][a-zA-Z0-9]*(\.d|\.test|\.bench)?\.([cm]?[jt]s|py)$/.test(basename(file))),
    );
  });
});

describe('a file of src', () => {
  it('has no more than 400 lines', () => {
    assertNoneBut(
      [],
      files.filter((file) => sourceOf(file).getLineStarts().length - 1 > 400),
    );
  });
});
