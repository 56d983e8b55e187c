import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { diskHost } from '../../src/disk/host.ts';
import { nodeDisk } from '../../src/disk/nodeDisk.ts';
import { diskPages } from '../../src/disk/messagePages.ts';
import { describePages } from '../analysis/messages/pages.ts';

describe('a project with a pipe among its files and a folder that tells nothing', () => {
  let root = '';
  const { list } = nodeDisk;
  before(() => {
    // Permissions bind no administrator, as whom tests may run.
    nodeDisk.list = (address) => (address.endsWith('closed') ? Promise.resolve(undefined) : list(address));
    root = mkdtempSync(join(tmpdir(), 'washboard-pages-'));
    mkdirSync(join(root, 'raw'));
    const sample = 'raw/brick-foam-1.csv.gz';
    copyFileSync(fileURLToPath(new URL(`../../samples/${sample}`, import.meta.url)), join(root, sample));
    mkdirSync(join(root, 'closed'));
    execFileSync('mkfifo', [join(root, 'raw', 'pipe')]);
  });
  after(() => {
    nodeDisk.list = list;
    rmSync(root, { recursive: true });
  });

  describePages('files', diskPages, () => diskHost(root, root));
});
