import { capitalised } from '../../result/words.ts';
import type { Dimension, Unit } from '../../units/unit.ts';
import type { Band } from '../../values/band.ts';
import type { Channel } from '../../values/run.ts';
import type { WindowName, WindowValue } from '../../values/window.ts';
import { hertzSpan, percent, plain, printedUnit } from '../../values/number.ts';

/** Words for what is measured, as axis titles and headers use them. */

const quantities: readonly { readonly name: string; readonly powers: readonly [number, number, number] }[] = [
  { name: 'acceleration', powers: [1, 0, -2] },
  { name: 'velocity', powers: [1, 0, -1] },
  { name: 'displacement', powers: [1, 0, 0] },
  { name: 'force', powers: [1, 1, -2] },
  { name: 'pressure', powers: [-1, 1, -2] },
  { name: 'time', powers: [0, 0, 1] },
  { name: 'frequency', powers: [0, 0, -1] },
  { name: 'mass', powers: [0, 1, 0] },
];

/** Name of what a unit measures, in lower case: `acceleration`; `signal` where the trade has no one word for it. */
export function quantityName(dimension: Dimension): string {
  if (dimension.count !== 0) return 'raw counts';
  const found = quantities.find(
    ({ powers: [length, mass, time] }) =>
      dimension.length === length && dimension.mass === mass && dimension.time === time,
  );
  return dimension.level === 0 && found !== undefined ? found.name : 'signal';
}

/** As `quantityName`, with the channel's frequency weighting before it. */
export function channelQuantity(channel: Channel): string {
  const name = quantityName(channel.unit.dimension);
  return channel.weighting === undefined ? name : `${channel.weighting}-weighted ${name}`;
}

/** As `channelQuantity`, of what is drawn over time: of a resultant that is a length. */
export const drawnQuantity = (channel: Channel): string =>
  channel.axes === undefined ? channelQuantity(channel) : `length of the ${channelQuantity(channel)} vector`;

/** `Acceleration (g)`: an axis title; the name alone for a plain number. */
export function axisTitle(name: string, unit: Unit | string): string {
  const symbol = typeof unit === 'string' ? unit : unit.symbol;
  return symbol === '' ? capitalised(name) : `${capitalised(name)} (${printedUnit(symbol)})`;
}

const windowNames: Readonly<Record<WindowName, string>> = {
  hann: 'Hann',
  hamming: 'Hamming',
  blackman: 'Blackman',
  'blackman-harris': 'Blackman-Harris',
  flattop: 'flat-top',
  rectangular: 'rectangular',
};

/** `Hann window of 2 s, overlap 50 %`; people's names with a capital. */
export const windowWords = ({ shape, length, overlap }: WindowValue): string =>
  `${windowNames[shape]} window of ${plain(length, 4)} s, overlap ${percent(overlap)}`;

export const bandName = (band: Band): string =>
  band.label === undefined ? hertzSpan(band.from, band.to) : `${band.label} Hz`;

/** A name cut to so many characters; where it is cut, the whole name stands nearby. */
export const shortened = (name: string, limit = 28): string =>
  name.length <= limit ? name : `${name.slice(0, limit - 1).trimEnd()}…`;

/** A figure and its percent sign are not parted at the end of a line. */
export const unparted = (text: string): string => text.replace(/(\d) %/g, '$1\u00a0%');

/** With a full stop, and never two. */
export const sentence = (text: string): string => `${capitalised(text.replace(/\.$/, ''))}.`;

/** Each once, in order of appearance. */
export const distinct = (names: readonly string[]): string[] => [...new Set(names)];

/** What an axis of levels is called in a sentence. */
export const levelAxisWords = { unit: 'level on a log axis', decibels: 'level in dB' } as const;
