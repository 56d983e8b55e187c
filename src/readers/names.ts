import { accelerationSize, isCounts, unitSymbol } from './units.ts';

export type Axis = 'x' | 'y' | 'z';

/** What a column's header says. */
export interface HeaderReading {
  /** The header without its unit. */
  readonly name: string;
  /** The unit's text as it stands, without brackets. */
  readonly unitText: string | undefined;
  readonly axis: Axis | undefined;
}

/** No name of a column is longer. */
const longest = 200;

const bracketed = /^(.*?)[\s_,-]*[([{<]\s*([^()[\]{}<>]*?)\s*[)\]}>]\s*$/;
/** `x in g`, `acc_x_in_m/s2`, in English, German and French. */
const within = /^(.+?)[\s_]+(?:in|en)[\s_]+(\S[^_]{0,40})$/i;
const suffixes = [
  /^(.+)(?:\s*,\s*|[\s_.-]+)([^\s_,]+)$/i,
  // A slash may stand before a unit, but is oftener a part of it.
  /^(.+?)\s*\/\s*([a-z%°][^\s_,]*)$/i,
];

/** Reads a header: its unit in brackets or at its end, and whether it names an axis of acceleration. */
export function readHeader(header: string, unitBelow?: string): HeaderReading {
  const text = header.trim();
  const below = unitBelow === undefined ? undefined : unbracketed(unitBelow) || undefined;
  if (text.length > longest) return { name: text, unitText: below, axis: undefined };
  const inBrackets = bracketed.exec(text);
  // `acc (x)`, `A[x]` and `acc[0]` say which reading it is, not its unit.
  if (inBrackets && inBrackets[1].trim() !== '' && /^(?:[xyz]|\d+)$/i.test(inBrackets[2])) {
    const name = text.replace(/\s+/g, ' ');
    return { name, unitText: below, axis: axisOf(name) };
  }
  if (inBrackets && inBrackets[1].trim() !== '') {
    const name = inBrackets[1].trim();
    return { name, unitText: below ?? (inBrackets[2] || undefined), axis: axisOf(name) };
  }
  const worded = within.exec(text);
  if (worded && unitSymbol(worded[2]) !== undefined) {
    const name = worded[1].trim();
    return { name, unitText: below ?? worded[2], axis: axisOf(name) };
  }
  const spelt = text.replace(/([_ ]m+)[_ ]s\^?_?2$/i, '$1/s2');
  for (const pattern of suffixes) {
    const match = pattern.exec(spelt);
    if (match === null) continue;
    const [, front, last] = match;
    if (unitSymbol(unitWord(last)) === undefined && !isCounts(last)) continue;
    const name = front.trim();
    const axis = axisOf(name);
    // A lone letter or word at a header's end is its unit only where the rest is an axis, or is a unit beyond doubt.
    const isOfLetter = accelerationSize(unitSymbol(unitWord(last))) !== undefined && loneLetter(name) !== undefined;
    if (axis || isOfLetter || /[/^²]|^(mg|Hz|kHz|kPa|psi|mph)$/.test(last))
      return { name, unitText: below ?? unitWord(last), axis };
  }
  return { name: text, unitText: below, axis: axisOf(text) };
}

/** A text without one pair of brackets around it. */
export function unbracketed(text: string): string {
  const plain = text.trim();
  return /^[([{<](.*)[)\]}>]$/.exec(plain)?.[1].trim() ?? plain;
}

function unitWord(text: string): string {
  return /^ms2$/i.test(text) ? 'm/s2' : text;
}

const before =
  '(?:linear|lin|user|total|raw|calibrated|cal|body|sensor|imu|mpu|adxl|lis|chip|motion|device|phone|watch|vib|vibration)*';
const quantity =
  '(?:accelerometer|accelerometre|accelerations?|accelero|accel|acceler|accl|acc|a|gforce|gf|beschleunigung|beschl|ac)';
const withQuantity = new RegExp(
  `^${before}${quantity}{1,2}(?:axis|achse|axe|val|value|data|ch|channel|chan)?([xyz])(?:axis|achse|dir|direction|richtung|component|raw|cal|calibrated|value|val|data)?$`,
);
const axisFirst = new RegExp(
  `^${before}([xyz])(?:axis|achse|dir|direction|richtung|component|ch|channel)?(?:${quantity})?(?:raw|cal|calibrated|value|val|data)?$`,
);
const axisAfter = /^(?:axis|ax|axe|achse|channel|chan|ch|direction|dir|sensor)([xyz])$/;

/** The axis that a letter standing alone in a name tells, as in `Seat Z`, where the unit shows it to be of acceleration. */
export function loneLetter(name: string): Axis | undefined {
  // A sensor that takes gravity out of its readings may tell both apart.
  if (/grav|schwerkraft|pesanteur/i.test(name)) return undefined;
  // A G stands for gauss beside a magnetometer.
  if (/(?<!\p{L})(?:mag|magn\p{L}*|gyro?\p{L}*|gyr|rot\p{L}*|omega|compass)(?!\p{L})/iu.test(name)) return undefined;
  const letters = name.toLowerCase().match(/(?<![\p{L}\d])[xyz](?![\p{L}\d])/gu) ?? [];
  return letters.length === 1 ? (letters[0] as Axis) : undefined;
}

/** The axis of acceleration that a header names, whatever its spelling; rotation, field, speed and place are none. */
export function axisOf(name: string): Axis | undefined {
  const plain = name
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^\p{L}]+/gu, '');
  // Most names are none, and most axes a letter alone: neither needs the patterns, which take a host long to make.
  if (!/[xyz]/.test(plain)) return undefined;
  if (plain.length === 1) return plain as Axis;
  // Some loggers call the time so.
  if (plain === 'xvalue') return undefined;
  const match = withQuantity.exec(plain) ?? axisFirst.exec(plain) ?? axisAfter.exec(plain);
  // A digit in the name tells one sensor from another (`ax1`, `ax2`): the axis is then only a part of its name.
  return match ? (match[1] as Axis) : undefined;
}
