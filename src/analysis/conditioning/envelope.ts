import { answered, type Answer } from '../../result/result.ts';
import { envelope } from '../../signal/envelope.ts';
import { pieceByPiece } from '../../signal/stretch.ts';
import { formatNumber } from '../../units/format.ts';
import type { Band } from '../../values/band.ts';
import type { Watch } from '../../values/ports.ts';
import type { RunsValue } from '../../values/runs.ts';
import { withSamples } from '../recordings/runs.ts';
import { filtered } from './filter.ts';

/**
 * The envelope of each channel in a band, of which any spectrum can be taken: how strong the band is, moment by moment.
 * Refuses what the band pass does.
 * @param band in Hz
 * @param order of one pass of the band pass
 */
export function envelopes(runs: RunsValue, band: Band, order: number, watch: Watch): Answer<RunsValue> {
  const passed = filtered(runs, { kind: 'bandpass', corners: [band.from, band.to], order }, watch);
  if (!passed.ok) return passed;
  const step = `envelope of ${formatNumber(band.from, 6)}..${formatNumber(band.to, 6)} Hz`;
  const done = passed.value.runs.map((run) =>
    // How strong a band is may change slowly: what was cut below it bounds the envelope nowhere.
    withSamples(run, step, ({ samples }) => ({
      samples: pieceByPiece(samples, run.stretches, envelope),
      lowCut: 0,
      highpass: 0,
    })),
  );
  return answered({ ...passed.value, runs: done }, passed.warnings);
}
