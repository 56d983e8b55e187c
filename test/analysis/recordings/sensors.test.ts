import { strict as assert } from 'node:assert';
import { sensorNamed } from '../../../src/analysis/recordings/sensors.ts';

const facts = (cells: Readonly<Record<string, string>>): { readonly facts: Readonly<Record<string, string>> } => ({
  facts: cells,
});

describe('the name of a run’s sensor', () => {
  it('is the sheet’s sensor, with its serial, else its logger', () => {
    assert.equal(sensorNamed(facts({ logger: 'L1', sensor: 'A1 ', 'sensor serial': '0147' }), undefined), 'A1 0147');
    assert.equal(sensorNamed(facts({ Logger: 'L1', sensor: ' ' }), undefined), 'L1');
    assert.equal(sensorNamed(facts({ surface: 'brick' }), undefined), undefined);
  });

  it('has with it the one that load chose of a file of several', () => {
    assert.equal(sensorNamed(undefined, ['base']), 'base');
    assert.equal(sensorNamed(facts({ logger: 'L1' }), ['base']), 'L1 base');
    // Their channels tell them apart.
    assert.equal(sensorNamed(facts({ logger: 'L1' }), ['base', 'top']), 'L1');
  });
});
