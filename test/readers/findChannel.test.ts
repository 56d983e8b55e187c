import { strict as assert } from 'node:assert';
import { findChannel } from '../../src/readers/findChannel.ts';

const channels = [
  { name: 'x', header: 'acc_x (g)' },
  { name: 'y', header: 'x' },
  { name: 'z', header: 'Seat_z [g]' },
  { name: 'column4' },
];

describe('a channel', () => {
  it('is found by its name before any header', () => {
    assert.equal(findChannel(channels, 'x')?.header, 'acc_x (g)');
    assert.equal(findChannel(channels, 'column4')?.name, 'column4');
  });

  it('is found by its header, with or without the unit, or by the word that it begins with', () => {
    assert.equal(findChannel(channels, 'acc_x (g)')?.name, 'x');
    assert.equal(findChannel(channels, 'acc_x')?.name, 'x');
    assert.equal(findChannel(channels, 'seat')?.name, 'z');
  });

  it('is not found by anything else', () => {
    assert.equal(findChannel(channels, 'eat'), undefined);
    assert.equal(findChannel(channels, ''), undefined);
  });
});
