import { success, type Result } from '../../result/result.ts';
import type { Watch } from '../../values/ports.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { refuse } from '../messages/evidence.ts';
import { whyBelowCut } from '../spectra/density.ts';
import { measured, type Measured } from './measure.ts';
import { floorSpectrum } from './noiseFloor.ts';
import type { ComparisonTerms } from './request.ts';
import { measuredIn, sideAt, type Sides } from './sides.ts';

/** Every side measured on one axis, and the logger at rest. */
export interface Measurement {
  readonly sides: Sides;
  /** In the order of the sides, the reference last. */
  readonly measured: readonly Measured[];
  readonly floor: SpectrumValue | undefined;
  /** Of all runs in the order of the sides, one list a band. */
  readonly levels: readonly (readonly number[])[];
}

/** The sides measured in each band; refused where one can't be, or a run has no vibration in a band. */
export function measurementOf(sides: Sides, terms: ComparisonTerms, watch: Watch): Result<Measurement> {
  const all = measuredIn(sides);
  const found: Measured[] = [];
  for (const side of all) {
    const one = measured(side, terms, watch, sideAt(sides, side));
    if (!one.ok) return one;
    found.push(one.value);
  }
  const levels = terms.bands.map((band) =>
    all.flatMap(({ tracks }, index) => tracks.map((_, run) => found[index].level(run, band))),
  );
  const zero = levels.findIndex((list) => !list.every((level) => level > 0));
  if (zero >= 0) return refuse('compare.zero', { band: terms.bands[zero] }, 'over');
  const measurement = { sides, measured: found, levels };
  if (terms.floor === undefined) return success({ ...measurement, floor: undefined });
  const floor = floorSpectrum(terms.floor, sides.a, watch, terms.known);
  if (!floor.ok) return floor;
  const { entries } = floor.value;
  const low = (terms.ofSignal ? [] : terms.bands)
    .map((band) => whyBelowCut(band, entries, 'above'))
    .find((refusal) => refusal !== undefined);
  return low ?? success({ ...measurement, floor: floor.value });
}
