import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { diskHost } from '../../src/disk/host.ts';
import { diskPages } from '../../src/disk/messagePages.ts';
import { describePages } from '../analysis/messages/pages.ts';

describe('a project with a pipe among its files', () => {
  let root = '';
  before(() => {
    root = mkdtempSync(join(tmpdir(), 'washboard-pages-'));
    mkdirSync(join(root, 'raw'));
    const sample = 'raw/brick-foam-1.csv.gz';
    copyFileSync(fileURLToPath(new URL(`../../samples/${sample}`, import.meta.url)), join(root, sample));
    execFileSync('mkfifo', [join(root, 'raw', 'pipe')]);
  });
  after(() => rmSync(root, { recursive: true }));

  describePages('files', diskPages, () => diskHost(root, root));
});
