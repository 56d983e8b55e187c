import { plainStamp } from './spelt.ts';
import type { StampForm, SteadyStamp } from './stampForm.ts';
import { tenTo } from '../../numbers/power.ts';

/** Days from 1970-01-01 to a date of the Gregorian calendar (Hinnant 2013, `days_from_civil`). */
export function daysFromCivil(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return era * 146097 + yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear - 719468;
}

const decoder = new TextDecoder();
const encoder = new TextEncoder();

const value = new Float64Array(12);
const width = new Int32Array(12);

/** Puts a group of digits in its place; a date of eight digits and a clock of six are three each. Gives the count. */
function put(groups: number, number: number, digits: number, mayBeDate: boolean, mayBeClock: boolean): number {
  if ((mayBeDate && digits === 8) || (mayBeClock && digits === 6)) {
    value[groups] = Math.floor(number / 10_000);
    value[groups + 1] = Math.floor(number / 100) % 100;
    value[groups + 2] = number % 100;
    return groups + 3;
  }
  value[groups] = number;
  width[groups] = digits;
  return groups + 1;
}

const months = 'janfebmaraprmayjunjulaugsepoctnovdec';

/** The month whose English name begins at a byte, or 0. */
function monthAt(bytes: Uint8Array, at: number, to: number): number {
  if (at + 3 > to) return 0;
  const name = String.fromCharCode(bytes[at] | 32, bytes[at + 1] | 32, bytes[at + 2] | 32);
  const found = months.indexOf(name);
  return found % 3 === 0 ? found / 3 + 1 : 0;
}

/**
 * Reads stamps of one form from bytes, as seconds from midnight of the first stamp's day (so that microseconds
 * keep their place in a double). `base` is that day in days from 1970, once a date was seen.
 */
export class StampReader {
  readonly form: StampForm;
  base: number | undefined;
  zone: string | undefined;
  /** How all are spelt, once one was seen that is spelt as usual. */
  steady: SteadyStamp | undefined;

  constructor(form: StampForm) {
    this.form = form;
  }

  /** Seconds for the stamp in bytes [from, to), or NaN where it is none. */
  read(bytes: Uint8Array, from: number, to: number): number {
    if (!this.form.worded) return this.readPlain(bytes, from, to);
    const plain = plainStamp(decoder.decode(bytes.subarray(from, to)).trim());
    if (plain === undefined) return NaN;
    const encoded = encoder.encode(plain);
    return this.readPlain(encoded, 0, encoded.length);
  }

  private readPlain(bytes: Uint8Array, from: number, to: number): number {
    const { form } = this;
    const dateParts = form.date === 'none' ? 0 : 3;
    const clockParts = form.clock === 'hms' ? 3 : form.clock === 'ms' ? 2 : 0;
    const needed = dateParts + clockParts;
    let groups = 0;
    let zoneSign = 0;
    let zoneAt: number | undefined;
    let half = 0;
    for (let i = from; i < to;) {
      const c = bytes[i];
      if (c >= 48 && c <= 57) {
        let number = 0;
        const start = i;
        for (; i < to && bytes[i] >= 48 && bytes[i] <= 57; i++) number = number * 10 + bytes[i] - 48;
        groups = put(
          groups,
          number,
          i - start,
          groups === 0 && dateParts === 3,
          groups === dateParts && clockParts === 3,
        );
        continue;
      }
      if (form.named && groups === 1) {
        const month = monthAt(bytes, i, to);
        if (month > 0) {
          groups = put(groups, month, 2, false, false);
          i += 3;
          continue;
        }
      }
      if (groups >= needed && clockParts > 0) {
        if (c === 43 || c === 45) {
          zoneSign = c === 43 ? 1 : -1;
          zoneAt = groups;
        } else if (c === 90 || c === 85 || c === 71) {
          zoneAt = groups;
        } else if (c === 65 || c === 97) half = 1;
        else if (c === 80 || c === 112) half = 2;
      }
      i++;
    }
    const end = zoneAt ?? groups;
    if (end < needed || end > needed + 1 || (zoneSign !== 0 && end === groups)) return NaN;
    const time = this.clockSeconds(dateParts, end, half);
    const days = dateParts === 0 || form.doubtful ? 0 : this.days();
    return time + days * 86400 - this.zoneSeconds(zoneAt, zoneSign, groups);
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
      part = fraction === 'milliseconds' ? value[at + parts] / 1000 : value[at + parts] / tenTo(width[at + parts]);
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

  private zoneSeconds(at: number | undefined, sign: number, groups: number): number {
    if (at === undefined) return 0;
    const [hours, minutes] =
      width[at] === 4
        ? [Math.floor(value[at] / 100), value[at] % 100]
        : [value[at], groups > at + 1 ? value[at + 1] : 0];
    const minutesOff = sign === 0 ? 0 : sign * (hours * 60 + minutes);
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
  return match ? (match[1] === '-' ? -1 : 1) * (Number(match[2]) * 60 + Number(match.at(3) ?? 0)) : undefined;
}
