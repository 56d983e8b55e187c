import { random } from '../random.ts';
import { logger, parts, ride, type RideDesign, type Surface } from './design.ts';
import type { Ride } from './ride.ts';

/** The logger's file: its rate above one column of readings, and no time. */
export function rideText({ z }: Ride): string {
  const lines = [`# sampling rate: ${logger.rate} Hz`, 'z (g)'];
  for (const value of z) lines.push(value.toFixed(4));
  return lines.join('\n') + '\n';
}

const header = 'file,condition,surface,order,date,speed (m/s),mass (kg),logger,note';
const day: Readonly<Record<Surface, string>> = { brick: '2025-06-17', tile: '2025-06-18' };

/** The run sheet: what was written down beside each recording. */
export const sheetText = (lines: readonly { readonly run: RideDesign; readonly speed: number }[]): string =>
  [header, ...lines.map(({ run, speed }) => sheetLine(run, speed))].join('\n') + '\n';

function sheetLine({ file, condition, surface, order, seed }: RideDesign, speed: number): string {
  const source = random(seed * 1000 + 5);
  // A stopwatch over the marked length, to the tenth of a second.
  const length = ride.speed * parts.pace;
  const seconds = Math.round((length / speed) * 10) / 10;
  const minutes = 9 * 60 + 30 + (order - 1) * 9 + Math.floor(3 * source.uniform());
  const clock = `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
  const shown = (length / seconds).toFixed(3);
  return [file, condition, surface, order, `${day[surface]}T${clock}`, shown, '75.0', 'invented 200 Hz', notes[file] ?? ''].join(',');
}

const notes: Readonly<Record<string, string>> = {
  'brick-foam-1.csv.gz': 'dry; 17 C',
  'brick-air-1.csv.gz': 'air pad pumped by the maker’s rule',
  'tile-foam-1.csv.gz': 'indoors; 21 C; corridor closed to others',
};
