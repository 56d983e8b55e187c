import { strict as assert } from 'node:assert';
import { withoutRights } from '../disk/rights.ts';
import { Sandbox } from './sandbox.ts';

const store = 'store/0123456789abcdef01234567';

describe('washboard cache', () => {
  let box: Sandbox;
  beforeEach(() => {
    box = new Sandbox({ [`${store}/ab/one`]: 'x'.repeat(600_000), [`${store}/cd/two`]: 'x'.repeat(600_000) });
  });
  afterEach(() => box.remove());
  const cache = (...options: readonly string[]) => box.run('cache', box.path('store'), ...options);

  it('says how much a folder keeps, and what was removed of it', async () => {
    assert.deepEqual(await cache(), { code: 0, printed: `${box.path('store')}: 2 entries, 1.2 MB\n`, errors: '' });
    const { printed } = await cache('--keep', '1MB', '--days', '30');
    assert.equal(printed, `Removed: 1 entry, 0.6 MB\n${box.path('store')}: 1 entry, 0.6 MB\n`);
    assert.equal((await cache('--clear')).printed, `${box.path('store')}: 0 entries, 0.0 MB\n`);
  });

  it('says that it can’t list or remove what is another user’s, and not that nothing is kept', async () => {
    const [listed, cleared] = await withoutRights(box.path('store'), 0o000, async () => [
      await cache(),
      await cache('--clear'),
    ]);
    assert.equal(listed.code, 1);
    assert.match(
      listed.errors,
      /^washboard: what is kept in \S+ can't be listed \(EACCES: .*\): ask as the user who kept it\.\n$/,
    );
    assert.equal(cleared.code, 1);
    assert.match(cleared.errors, /^washboard: not all that was to go could be removed from \S+ \(EACCES: /);
    assert.equal(listed.printed + cleared.printed, '');
    assert.match((await cache()).printed, /2 entries/);
  });

  it('removes nothing where it does not understand how much may stay', async () => {
    for (const options of [['--keep', '1 mb'], ['--keep=-1MB'], ['--keep', '5'], ['--days', '1.5'], ['more']]) {
      const { code, errors } = await cache(...options, '--clear');
      assert.equal(code, 2, options.join(' '));
      assert.match(
        errors,
        /^washboard: (--keep takes a size, as in 500MB|--days takes a whole number|cache takes no "more")/,
      );
    }
    assert.match((await cache()).printed, /2 entries/);
  });
});
