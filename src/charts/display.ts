import type { PaletteName } from './palettes.ts';

/** How a reader wants results shown. Only outputs follow it: records, files and the numbers in prose stay as they are. */
export interface Display {
  /** Significant digits of measured figures in tables, where a column does not set its own; 4 unless said. */
  readonly digits?: number;
  /** The unit in which accelerations are shown whose statement does not ask for one. */
  readonly acceleration?: 'g' | 'm/s^2';
  readonly palette?: PaletteName;
}
