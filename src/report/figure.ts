import type { ChartPart } from '../charts/output.ts';
import type { Theme } from '../charts/theme.ts';
import { drawnAt } from './svg.ts';

/** A drawing for print: its width is what was asked for, to the hair. */
export interface Figure {
  readonly svg: string;
  /** mm */
  readonly height: number;
  /** By how much the type is smaller than asked for, where names need more than the width: 1 where it is not. */
  readonly scale: number;
}

/**
 * A chart as SVG of a width in mm. It is laid out anew until its names fit; what stands over the edge even then makes the whole
 * smaller, and what is left free stays free.
 *
 * @param width in px of the layout
 * @param millimetres what that is on paper
 * @param titled whether the title stands in the picture
 */
export async function toFigure(
  chart: ChartPart,
  theme: Theme,
  { width, millimetres, titled }: { readonly width: number; readonly millimetres: number; readonly titled: boolean },
): Promise<Figure> {
  const drawn = await drawnAt(chart, theme, { width, titled, print: true });
  const [, wide, high] = /^<svg[^>]*\bwidth="([\d.]+)" height="([\d.]+)"/.exec(drawn) ?? [];
  const whole = Math.max(Number(wide), width);
  const perUnit = millimetres / whole;
  const height = Number(high) * perUnit;
  const svg = drawn
    .replace(
      /^<svg([^>]*?) width="[\d.]+" height="[\d.]+" viewBox="[^"]*"/,
      `<svg$1 width="${millimetres}mm" height="${round(height)}mm" viewBox="0 0 ${round(whole)} ${round(Number(high))}"`,
    )
    .replace(/<rect width="[\d.]+"/, `<rect width="${round(whole)}"`);
  return { svg, height: Number(round(height)), scale: width / whole };
}

const round = (value: number): string => String(Number(value.toFixed(3)));
