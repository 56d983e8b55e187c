/** Percentages in sentences: one decimal below 100 %, and the minus sign that print has. */

export const percentText = (value: number): string => `${figure(Math.abs(value))} %`;

export const signedPercentText = (value: number): string => `${signedFigure(value)} %`;

/** `−27.2 to −15.3 %` */
export const intervalText = (low: number, high: number): string => `${signedFigure(low)} to ${signedFigure(high)} %`;

const signedFigure = (value: number): string => {
  const text = figure(Math.abs(value));
  return Number(text) === 0 ? text : `${value < 0 ? '−' : '+'}${text}`;
};

function figure(size: number): string {
  if (size > 0 && size < 0.05) return String(Number(size.toPrecision(1)));
  return size < 100 ? size.toFixed(1) : String(Math.round(size));
}
