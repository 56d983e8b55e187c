import { strict as assert } from 'node:assert';
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
