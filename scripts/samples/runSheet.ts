import { ride, type RunDesign } from './design.ts';
import { random } from './random.ts';

/** A line of the run sheet: what was written down beside each recording. */
export interface SheetLine {
  readonly run: RunDesign;
  /** Mean speed over the marked distance in m/s. */
  readonly speed: number;
}

const header = 'file,condition,surface,order,date,speed (m/s),mass (kg),pressure (bar),note,excluded,why';
const day = { brick: '2025-05-13', tile: '2025-05-14' } as const;

export function runSheet(lines: readonly SheetLine[]): string {
  return [header, ...lines.map(sheetLine)].join('\n') + '\n';
}

function sheetLine({ run, speed }: SheetLine): string {
  const source = random(run.seed * 1000 + 5);
  // A stopwatch over the marked length: to the tenth of a second.
  const seconds = Math.round((ride.length / speed) * 10 + source.gaussian()) / 10;
  const minutes = 9 * 60 + 40 + (run.order - 1) * 14 + Math.floor(4 * source.uniform());
  const clock = `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
  const pressure = (5 + 0.05 * Math.round(source.gaussian() * 0.6)).toFixed(2);
  const excluded = run.stopsAt === undefined ? ['no', ''] : ['yes', 'broken off; rule 1: the whole path without a stop'];
  const note = notes[run.file] ?? '';
  const shown = run.stopsAt === undefined ? (ride.length / seconds).toFixed(2) : '';
  return [run.file, run.condition, run.surface, run.order, `${day[run.surface]}T${clock}`, shown, '75.0', pressure, note, ...excluded].join(',');
}

const notes: Readonly<Record<string, string>> = {
  'brick-foam-1.csv.gz': 'dry; 16 C; pad fitted and pressed down for 5 min first',
  'brick-gel-1.csv.gz': 'pads changed; logger laid on its mark again',
  'brick-foam-3.csv.gz': 'light wind from behind',
  'brick-gel-4.csv.gz': '19 C',
  'tile-foam-1.csv.gz': 'indoors; 21 C; corridor closed to others',
  'tile-gel-3.csv.gz': 'door held open from the far side',
};
