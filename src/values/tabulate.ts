import { cell, tableOf as table } from './cells.ts';
import { comparisonTable, orderTable, planTable, repeatsTable, sheetTable, verdictTable } from './evidenceTables.ts';
import { peaksTable, profileTable, runningTable, spectrogramTable, transferTable } from './signalTables.ts';
import type { TableValue } from './table.ts';
import type { Value } from './value.ts';

/** The numbers behind a value, as a table with its units; undefined for a value that has none. */
export function tabulate(value: Value): TableValue | undefined {
  switch (value.kind) {
    case 'table':
      return value;
    case 'quantity':
      return table('', [['value', value.quantity.unit.symbol]], [[value.quantity.value]]);
    case 'runs':
      return table(
        'Runs',
        [
          ['run', ''],
          ['file', ''],
          ['channels', ''],
          ['unit', ''],
          ['rate', 'Hz'],
          ['samples', ''],
          ['start', 's'],
          ['duration', 's'],
        ],
        value.runs.map((run) => {
          const samples = run.channels[0]?.samples.length ?? 0;
          const units = [...new Set(run.channels.map(({ unit }) => unit.symbol))].join(', ');
          return [
            run.label,
            run.file.path,
            run.channels.map(({ name }) => name).join(', '),
            units,
            run.rate,
            samples,
            run.start,
            samples / run.rate,
          ];
        }),
      );
    case 'levels': {
      const unit = value.rows[0]?.channel.unit.symbol ?? '';
      return table(
        'Levels',
        [
          ['run', ''],
          ['channel', ''],
          ['mean', unit],
          ['rms', unit],
          ['total_rms', unit],
          ['peak', unit],
          ['peak_to_peak', unit],
          ['p99', unit],
          ['p99_9', unit],
          ['crest_factor', ''],
          ['kurtosis', ''],
          ['skewness', ''],
          ['vdv', 'm/s^1.75'],
          ['mtvv', unit],
          ['mtvv_at', 's'],
          ['duration', 's'],
        ],
        value.rows.map((row) => [
          row.run.label,
          row.channel.name,
          row.mean,
          row.rms,
          row.totalRms,
          row.peak,
          row.peakToPeak,
          row.percentile99,
          row.percentile999,
          cell(row.crestFactor),
          cell(row.kurtosis),
          cell(row.skewness),
          cell(row.vdv),
          cell(row.mtvv),
          cell(row.mtvvAt),
          row.duration,
        ]),
      );
    }
    case 'spectrum': {
      const [first] = value.entries;
      const bins = Math.min(...value.entries.map(({ level }) => level.length));
      const columns: [string, string][] = value.entries.map((entry) => [
        `${entry.run.label} ${entry.channel.name}`,
        entry.unit.symbol,
      ]);
      return table(
        'Spectrum',
        [value.axis === undefined ? ['frequency', 'Hz'] : [value.axis.name, value.axis.unit.symbol], ...columns],
        Array.from({ length: bins }, (_, k) => [k * first.spacing, ...value.entries.map(({ level }) => level[k])]),
      );
    }
    case 'bands': {
      const unit = value.rows[0]?.unit.symbol ?? '';
      return table(
        'Bands',
        [
          ['run', ''],
          ['channel', ''],
          ['from', 'Hz'],
          ['to', 'Hz'],
          ['rms', unit],
        ],
        value.rows.map((row) => [row.run.label, row.channel.name, row.band.from, row.band.to, cell(row.rms)]),
      );
    }
    case 'comparison':
      return comparisonTable(value);
    case 'verdict':
      return verdictTable(value);
    case 'repeats':
      return repeatsTable(value);
    case 'order':
      return orderTable(value);
    case 'sheet':
      return sheetTable(value);
    case 'plan':
      return planTable(value);
    case 'findings':
      return table(
        'Findings',
        [
          ['run', ''],
          ['severity', ''],
          ['code', ''],
          ['value', ''],
          ['message', ''],
        ],
        value.rows.map(({ run, finding }) => [
          run.label,
          finding.severity,
          finding.code,
          cell(finding.value),
          finding.message,
        ]),
      );
    case 'peaks':
      return peaksTable(value);
    case 'running':
      return runningTable(value);
    case 'spectrogram':
      return spectrogramTable(value);
    case 'transfer':
      return transferTable(value);
    case 'profile':
      return profileTable(value);
    default:
      return undefined;
  }
}
