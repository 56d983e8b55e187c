import { strict as assert } from 'node:assert';
import { verdictDescription, verdictSubtitle } from '../../../src/charts/words/verdict.ts';
import { everyValue } from '../everyValue.ts';

describe('what a claim allows', () => {
  const { verdict } = everyValue;
  const said = (from: number | undefined, to: number | undefined, isOfPower = false): string => {
    const value = { ...verdict, isOfPower };
    const [, allowed] = /The claim allows (.*)\.$/.exec(verdictDescription(value, { from, to })) ?? [];
    assert.ok(verdictSubtitle(value, { from, to }).endsWith(`Shaded: what the claim allows, ${allowed}.`));
    return allowed;
  };

  it('is told with its direction, whichever way it is bounded', () => {
    assert.equal(said(undefined, -30), 'a reduction of 30 % or more');
    assert.equal(said(5, undefined), 'an increase of 5 % or more');
    assert.equal(said(undefined, 0), 'any reduction');
    assert.equal(said(0, undefined), 'any increase');
    // "No worse than 5 %" and "an increase of at most 5 %"; "a reduction of at most 45 %".
    assert.equal(said(undefined, 5), 'any reduction, no change and an increase of up to 5 %');
    assert.equal(said(-45, undefined), 'a reduction of up to 45 %, no change and any increase');
    assert.equal(said(-20, -10), 'a reduction of 10 to 20 %');
    assert.equal(said(10, 20), 'an increase of 10 to 20 %');
    assert.equal(said(-8, 2), 'a reduction of up to 8 %, no change and an increase of up to 2 %');
  });

  it('is of amplitude where the claim is of power', () =>
    assert.equal(said(undefined, -16.334, true), 'a reduction of 16.3 % of amplitude or more'));
});
