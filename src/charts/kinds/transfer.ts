import { pairsOf, responseCaption, responseHeadings } from '../words/transfer.ts';
import type { TransferEntry } from '../../values/transfer.ts';
import { distinct } from '../words/names.ts';
import { fixed, significant } from '../../values/number.ts';
import type { TablePart } from '../output.ts';
import { transferChart } from '../plots/transfer.ts';
import { excludedPart } from './excluded.ts';
import { columns, some, type Presenter } from './kind.ts';

/** Magnitude, phase and coherence, and one row a run: where the response is largest among what may be read. */
export const presentTransfer: Presenter<'transfer'> = (value, name) =>
  some(
    transferChart({ name, value }, { frequency: 'linear', marks: [] }),
    transferTable(value.entries, value.leastCoherence),
    excludedPart(value.excluded),
  );

function transferTable(entries: readonly TransferEntry[], least: number): TablePart {
  const units = distinct(entries.map(({ unit }) => unit.symbol));
  const pairs = pairsOf(entries);
  const rows = entries.map((entry) => readable(entry, least));
  const any = rows.some(({ top }) => top !== undefined);
  const late = entries.some(({ delay }) => delay !== undefined);
  return {
    type: 'table',
    caption: responseCaption(entries, least),
    columns: columns(
      ['Run', '', 'left'],
      ...(pairs.length > 1 ? ([['Channels', '', 'left']] as const) : []),
      ['Averages', ''],
      ...(late ? ([[responseHeadings.delay, 'ms']] as const) : []),
      [responseHeadings.share, '%'],
      ...(any
        ? ([
            ['Largest', units.length === 1 ? units[0] : ''],
            ['at', 'Hz'],
            ['Standard error', '%'],
            ['Phase there', '°'],
            ['Coherence there', ''],
          ] as const)
        : []),
    ),
    rows: rows.map(({ entry, share, top }) => [
      entry.run.label,
      ...(pairs.length > 1 ? [`${entry.from} to ${entry.to}`] : []),
      significant(entry.averages, 3),
      ...(late ? [entry.delay === undefined ? '–' : significant(1000 * entry.delay, 3)] : []),
      share,
      ...(any ? figuresAt(entry, top) : []),
    ]),
  };
}

interface Readable {
  readonly entry: TransferEntry;
  /** Of the bins that may be read, in percent. */
  readonly share: string;
  /** The bin among them where the response is largest. */
  readonly top: number | undefined;
}

function readable(entry: TransferEntry, least: number): Readable {
  const { magnitude, coherence } = entry;
  let count = 0;
  let top: number | undefined;
  for (let bin = 1; bin < magnitude.length; bin++) {
    if (!(coherence[bin] >= least)) continue;
    count++;
    if (top === undefined || magnitude[bin] > magnitude[top]) top = bin;
  }
  return { entry, share: significant((100 * count) / Math.max(1, magnitude.length - 1), 3), top };
}

function figuresAt(
  { magnitude, phase, coherence, randomError, spacing }: TransferEntry,
  top: number | undefined,
): string[] {
  if (top === undefined) return ['–', '–', '–', '–', '–'];
  return [
    significant(magnitude[top]),
    significant(top * spacing),
    significant(randomError[top] * 100, 2),
    fixed(phase[top], 1),
    significant(coherence[top], 3),
  ];
}
