import type { TransferEntry } from '../../verbs/values/transfer.ts';
import { distinct } from '../names.ts';
import { fixed, plain, significant } from '../number.ts';
import { transferChart } from '../plots/transfer.ts';
import { excludedPart } from './excluded.ts';
import { columns, some, type Presenter } from './kind.ts';

/** Magnitude, phase and coherence, and one row a run: where the response is largest among what may be read. */
export const presentTransfer: Presenter<'transfer'> = (value, name) => {
  const units = distinct(value.entries.map(({ unit }) => unit.symbol));
  return some(
    transferChart({ name, value }, { frequency: 'linear', marks: [] }),
    {
      type: 'table',
      caption: `Frequency response; read where the coherence is at least ${plain(value.leastCoherence)}`,
      columns: columns(
        ['Run', '', 'left'],
        ['From', '', 'left'],
        ['To', '', 'left'],
        ['Averages', ''],
        ['Bins to be read', '%'],
        ['Largest', units.length === 1 ? units[0] : ''],
        ['at', 'Hz'],
        ['Standard error', '%'],
        ['Phase there', '°'],
        ['Coherence there', ''],
      ),
      rows: value.entries.map((entry) => transferRow(entry, value.leastCoherence)),
    },
    excludedPart(value.excluded),
  );
};

function transferRow(entry: TransferEntry, least: number): string[] {
  const { run, from, to, averages, magnitude, phase, coherence, randomError, spacing } = entry;
  let readable = 0;
  let top: number | undefined;
  for (let bin = 1; bin < magnitude.length; bin++) {
    if (!(coherence[bin] >= least)) continue;
    readable++;
    if (top === undefined || magnitude[bin] > magnitude[top]) top = bin;
  }
  const share = significant((100 * readable) / Math.max(1, magnitude.length - 1), 3);
  const head = [run.label, from, to, significant(averages, 3), share];
  if (top === undefined) return [...head, '–', '–', '–', '–', '–'];
  return [
    ...head,
    significant(magnitude[top]),
    plain(top * spacing, 5),
    significant(randomError[top] * 100, 2),
    fixed(phase[top], 1),
    significant(coherence[top], 3),
  ];
}
