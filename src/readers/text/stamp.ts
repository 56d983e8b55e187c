/** How a column of clock stamps is spelt. */
export interface StampForm {
  /** Order of the date's parts, or none for a clock without a date. */
  readonly date: 'ymd' | 'dmy' | 'mdy' | 'none';
  /** Parts of the clock: hours, minutes, seconds; minutes and seconds; or none for a date alone. */
  readonly clock: 'hms' | 'ms' | 'none';
  /** Whether digits after the seconds are a decimal fraction, or milliseconds without leading zeros. */
  readonly fraction: 'decimal' | 'milliseconds';
  /** Whether either of day and month could be the other. */
  readonly swappable: boolean;
}

const date = String.raw`(?:(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})|(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})|(\d{8}))`;
const clock = String.raw`(\d{1,2})[:.h](\d{2})[:.m](\d{2})s?(?:[.,:](\d{1,9}))?`;
const zone = String.raw`\s?(Z|UTC|GMT|[+-]\d{2}:?\d{2})?`;
const stamp = new RegExp(`^(?:${date}(?:[T _]|,\\s?|\\s-\\s)\\s?)?${clock}(?:\\s?([AaPp])\\.?[Mm]\\.?)?${zone}$`);
const dateAlone = new RegExp(`^${date}$`);
const minutes = /^(\d{1,3}):(\d{2})[.,](\d{1,9})$/;

/** Whether a cell is a clock stamp or a date, in any of the spellings known here. */
export function isStamp(text: string): boolean {
  const plain = text.trim();
  return stamp.test(plain) || minutes.test(plain) || (dateAlone.test(plain) && !/^\d{8}$/.test(plain));
}

/** The form of a column of stamps, from some of its cells; undefined where they are not of one form. */
export function stampForm(cells: readonly string[]): StampForm | undefined {
  const plain = cells.map((cell) => cell.trim());
  if (plain.length === 0) return undefined;
  if (plain.every((cell) => minutes.test(cell))) {
    return { date: 'none', clock: 'ms', fraction: 'decimal', swappable: false };
  }
  const onlyDates = plain.every((cell) => dateAlone.test(cell));
  const matches = plain.map((cell) => (onlyDates ? dateAlone : stamp).exec(cell));
  if (matches.some((match) => match === null)) return undefined;
  const found = matches as RegExpExecArray[];
  const order = dateOrder(found);
  if (order === undefined) return undefined;
  const fraction = onlyDates ? 'decimal' : fractionStyle(found);
  return { ...order, clock: onlyDates ? 'none' : 'hms', fraction };
}

function dateOrder(found: readonly RegExpExecArray[]): Pick<StampForm, 'date' | 'swappable'> | undefined {
  const kind = (match: RegExpExecArray): string => (match[1] ? 'ymd' : match[7] ? 'ymd8' : match[4] ? 'xy' : 'none');
  const kinds = new Set(found.map(kind));
  if (kinds.size !== 1) return undefined;
  const [only] = kinds;
  if (only === 'none') return { date: 'none', swappable: false };
  if (only !== 'xy') return { date: 'ymd', swappable: false };
  const firstOver = found.some((match) => Number(match[4]) > 12);
  const secondOver = found.some((match) => Number(match[5]) > 12);
  return { date: secondOver ? 'mdy' : 'dmy', swappable: !firstOver && !secondOver };
}

/** `.5 .10 .15` are 5, 10, 15 ms where a decimal fraction would run backwards and milliseconds do not. */
function fractionStyle(found: readonly RegExpExecArray[]): StampForm['fraction'] {
  const texts = found.map((match) => match[11] ?? '');
  const lengths = new Set(texts.map((text) => text.length));
  if (lengths.size < 2 || texts.some((text) => text.length > 3)) return 'decimal';
  const backward = (value: (text: string) => number): number => {
    let count = 0;
    for (let i = 1; i < found.length; i++) {
      const same = [8, 9, 10].every((part) => found[i][part] === found[i - 1][part]);
      if (same && value(texts[i]) < value(texts[i - 1])) count++;
    }
    return count;
  };
  return backward((text) => Number(`0.${text}0`)) > 0 && backward(Number) === 0 ? 'milliseconds' : 'decimal';
}

/** Days from 1970-01-01 to a date of the Gregorian calendar (Hinnant 2013, `days_from_civil`). */
export function daysFromCivil(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return era * 146097 + yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear - 719468;
}

const value = new Float64Array(12);
const width = new Int32Array(12);

/**
 * Reads stamps of one form from bytes, as seconds from midnight of the first stamp's day (so that microseconds
 * keep their place in a double). `base` is that day in days from 1970, once a date was seen.
 */
export class StampReader {
  readonly form: StampForm;
  base: number | undefined;
  zone: string | undefined;

  constructor(form: StampForm) {
    this.form = form;
  }

  /** Seconds for the stamp in bytes [from, to), or NaN where it is none. */
  read(bytes: Uint8Array, from: number, to: number): number {
    const dateParts = this.form.date === 'none' ? 0 : 3;
    const clockAt = this.compactDate(bytes, from, to) ? 1 : dateParts;
    const clockParts = this.form.clock === 'hms' ? 3 : this.form.clock === 'ms' ? 2 : 0;
    let groups = 0;
    let zoneSign = 0;
    let zoneAt = -1;
    let half = 0;
    for (let i = from; i < to;) {
      const c = bytes[i];
      if (c >= 48 && c <= 57) {
        if (groups === 12) return NaN;
        let number = 0;
        const start = i;
        for (; i < to && bytes[i] >= 48 && bytes[i] <= 57; i++) number = number * 10 + bytes[i] - 48;
        value[groups] = number;
        width[groups++] = i - start;
        continue;
      }
      if (groups >= clockAt + clockParts && clockParts > 0) {
        if (c === 43 || c === 45) {
          zoneSign = c === 43 ? 1 : -1;
          zoneAt = groups;
        } else if (c === 90 || c === 85) {
          zoneAt = groups;
          zoneSign = 0;
        } else if (c === 65 || c === 97) half = 1;
        else if (c === 80 || c === 112) half = 2;
      }
      i++;
    }
    if (clockAt === 1 && groups > 0) groups = this.splitDate(groups);
    if (clockAt === 1 && zoneAt >= 0) zoneAt += 2;
    const end = zoneAt >= 0 ? zoneAt : groups;
    if (end < dateParts + clockParts || end > dateParts + clockParts + 1) return NaN;
    const time = this.clockSeconds(dateParts, end, half);
    const days = dateParts === 0 ? 0 : this.days();
    return time + days * 86400 - this.zoneSeconds(zoneAt, zoneSign, groups);
  }

  private compactDate(bytes: Uint8Array, from: number, to: number): boolean {
    if (this.form.date !== 'ymd' || to - from < 8) return false;
    for (let i = 0; i < 8; i++) if (bytes[from + i] < 48 || bytes[from + i] > 57) return false;
    return true;
  }

  private splitDate(groups: number): number {
    value.copyWithin(2, 0, groups);
    width.copyWithin(2, 0, groups);
    const whole = value[2];
    value[0] = Math.floor(whole / 10000);
    value[1] = Math.floor(whole / 100) % 100;
    value[2] = whole % 100;
    return groups + 2;
  }

  private clockSeconds(at: number, end: number, half: number): number {
    const { clock, fraction } = this.form;
    if (clock === 'none') return 0;
    const parts = clock === 'hms' ? 3 : 2;
    let hours = clock === 'hms' ? value[at] : 0;
    const minute = value[at + parts - 2];
    const second = value[at + parts - 1];
    if (hours > 24 || (clock === 'hms' && minute > 59) || second > 60) return NaN;
    if (half === 1 && hours === 12) hours = 0;
    if (half === 2 && hours < 12) hours += 12;
    let part = 0;
    if (end > at + parts)
      part = fraction === 'milliseconds' ? value[at + parts] / 1000 : value[at + parts] / 10 ** width[at + parts];
    return hours * 3600 + minute * 60 + second + part;
  }

  private days(): number {
    const order = this.form.date;
    const year = order === 'ymd' ? value[0] : value[2];
    const month = order === 'mdy' ? value[0] : value[1];
    const day = order === 'ymd' ? value[2] : order === 'dmy' ? value[0] : value[1];
    if (month < 1 || month > 12 || day < 1 || day > 31) return NaN;
    const days = daysFromCivil(year, month, day);
    this.base ??= days;
    return days - this.base;
  }

  private zoneSeconds(at: number, sign: number, groups: number): number {
    if (at < 0) return 0;
    let minutesOff = 0;
    if (sign !== 0 && groups > at) {
      const packed =
        width[at] === 4
          ? [Math.floor(value[at] / 100), value[at] % 100]
          : [value[at], groups > at + 1 ? value[at + 1] : 0];
      minutesOff = sign * (packed[0] * 60 + packed[1]);
    }
    this.zone ??= zoneText(minutesOff);
    return minutesOff * 60;
  }
}

/** An offset from UTC in minutes, as `+02:00`. */
export function zoneText(minutesOff: number): string {
  const two = (number: number): string => String(Math.floor(number)).padStart(2, '0');
  return `${minutesOff < 0 ? '-' : '+'}${two(Math.abs(minutesOff) / 60)}:${two(Math.abs(minutesOff) % 60)}`;
}

/** Minutes from UTC of `Z`, `UTC`, `+02:00`, `+0200` or `UTC+2`, or undefined. */
export function zoneMinutes(text: string): number | undefined {
  if (/^(Z|UTC|GMT)$/i.test(text.trim())) return 0;
  const match = /^(?:UTC|GMT)?\s?([+-])(\d{1,2})(?::?(\d{2}))?$/i.exec(text.trim());
  return match ? (match[1] === '-' ? -1 : 1) * (Number(match[2]) * 60 + Number(match[3] ?? 0)) : undefined;
}
