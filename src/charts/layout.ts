import { standing } from './standing.ts';

/**
 * What a chart is laid out for. On a screen its width follows a signal, and its reader can point at things; a figure in print has
 * one width, and its type is as large as it was asked for, so less of it fits.
 */
export interface Layout {
  /** Width in px of the whole picture. */
  readonly width: number;
  /** Width in px that the y axis, its title and padding take. */
  readonly besidePlot: number;
  /** Width in px of the narrowest plot in which names must not touch. */
  readonly plotWidth: number;
  /** Plots that are not made of rows of text are so much as high as on a screen. */
  readonly heights: number;
  /** Whether text is set in the font whose widths are known (see advances.ts). */
  readonly print: boolean;
}

const onScreen: Layout = { width: 720, besidePlot: 88, plotWidth: 440, heights: 1, print: false };

/** px; a figure narrower than this is a column's, and its plots are lower too. */
const columnWidth = 500;

/** @param width of the whole picture in px */
export const inPrint = (width: number): Layout => ({
  width,
  besidePlot: 72,
  plotWidth: width - 72,
  heights: width < columnWidth ? 0.72 : 1,
  print: true,
});

const current = standing(onScreen);

/** What the chart that is being made is laid out for. */
export const layout = (): Layout => current.now();

/** Makes charts for a layout. */
export const laidOut = <T>(wanted: Layout, make: () => T): T => current.during(wanted, make);

/** Height in px of a plot that takes so many on a screen. */
export const tall = (height: number): number => Math.round(height * layout().heights);
