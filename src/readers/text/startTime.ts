import { StampReader, zoneMinutes } from './stamp.ts';
import { stampForm } from './stampForm.ts';

/** When a recording began, by what stands above its rows. */
export interface StartTime {
  /** Seconds from 1970 where the offset from UTC is stated, else on the logger's own clock. */
  readonly seconds: number;
  /** Midnight of that day. */
  readonly day: number;
  readonly zone: string | undefined;
}

const beginning =
  '(?:start(?:ed)?|begin|began|beginn|recording|recorded|measurement|measured|logging|log|test|acquisition|aufnahme|messung|messbeginn|mess)';
const whole = new RegExp(
  `^(?:${beginning}[ _-]*)?(?:${beginning}|date[ _-]*(?:and|&|/)?[ _-]*time|time[ _-]*stamp|(?:date[ _-]*)?time|datum|zeit(?:punkt)?|uhrzeit)(?:[ _-]*(?:at|on|am|utc|local|\\((?:utc|local)[^)]*\\)))?$`,
);
const dayAlone = new RegExp(`^(?:${beginning}[ _-]*)?(?:date|day|datum|tag)$`);
const clockAlone = new RegExp(`^(?:${beginning}[ _-]*)?(?:time|uhrzeit|zeit)(?:[ _-]*\\(?(?:utc|local)\\)?)?$`);

/** The time that keys such as `Start time: 2026-03-01 10:20:30`, or a date and a clock of their own, state without doubt. */
export function startTimeIn(entries: readonly (readonly [string, string])[]): StartTime | undefined {
  const named = entries.map(([key, value]) => [key.trim().toLowerCase(), value.trim().replace(/[,;]+$/, '')] as const);
  for (const [key, value] of named) {
    const found = whole.test(key) ? startOf(value) : undefined;
    if (found) return found;
  }
  const day = named.find(([key]) => dayAlone.test(key))?.[1];
  const clock = named.find(([key]) => clockAlone.test(key))?.[1];
  return day === undefined || clock === undefined ? undefined : startOf(`${day} ${clock}`);
}

function startOf(text: string): StartTime | undefined {
  const form = stampForm([text]);
  if (form === undefined || form.date === 'none' || form.clock !== 'hms' || form.doubtful) return undefined;
  const reader = new StampReader(form);
  const bytes = new TextEncoder().encode(text);
  const seconds = reader.read(bytes, 0, bytes.length);
  if (Number.isNaN(seconds) || reader.base === undefined) return undefined;
  const day = reader.base * 86_400;
  const { zone } = reader;
  return {
    seconds: day + seconds,
    day,
    zone: zone !== undefined && zoneMinutes(zone) !== undefined ? zone : undefined,
  };
}
