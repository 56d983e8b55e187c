/** What a time column's name says about its stamps. */
export interface TimeName {
  /** Seconds that one step of the column's numbers stands for, where the name says so. */
  readonly scale: number | undefined;
}

const words =
  /^(t|ts|time|times|timestamp|timestamps|stamp|elapsed|elapsedtime|timeelapsed|relativetime|reltime|abstime|absolutetime|runtime|uptime|clock|datetime|date|dateandtime|datetimestamp|localtime|systemtime|devicetime|hosttime|sensortime|utc|utctime|gmt|epoch|epochtime|unix|unixtime|unixtimestamp|secondselapsed|tick|ticktime|zeit|zeitstempel|uhrzeit|temps|tiempo|tempo|tijd|hora|heure|tid|timeofday|isotime|loggingtime|loggingsample|samplingtime|sampletime|xvalue)$/;

const scales: readonly (readonly [RegExp, number])[] = [
  [/^(ns|nanos?|nanoseconds?|nsecs?)$/, 1e-9],
  [/^(us|µs|μs|micros?|microseconds?|usecs?|microsec)$/, 1e-6],
  [/^(ms|millis?|milliseconds?|msecs?|millisec|milisec)$/, 1e-3],
  [/^(s|secs?|seconds?|sek|sekunden)$/, 1],
  [/^(min|mins|minutes?)$/, 60],
  [/^(h|hours?)$/, 3600],
];

/** Seconds of a unit of time as a header spells it, or undefined. */
export function timeScale(text: string): number | undefined {
  const plain = text.trim().toLowerCase();
  return scales.find(([pattern]) => pattern.test(plain))?.[1];
}

/** Whether a column's name, less its unit, is one of a time, and the scale where the name tells it. */
export function timeName(name: string): TimeName | undefined {
  const lower = name.trim().toLowerCase();
  const parts = lower.split(/[^\p{L}]+/u).filter((part) => part !== '');
  const joined = parts.join('');
  if (parts.length === 0 || isOtherQuantity(parts[0])) return undefined;
  if (words.test(joined)) return { scale: undefined };
  const alone = timeScale(joined);
  // `s`, `h` and `min` alone are seldom times; a name in full is.
  if (alone !== undefined && (joined.length > 1 || joined === 's') && joined !== 'min') return { scale: alone };
  const behind = parts[parts.length - 1];
  const last = timeScale(behind);
  if (last !== undefined && words.test(parts.slice(0, -1).join(''))) return { scale: last };
  // A sensor's reading is seldom in ms or us; a column that ends so is a time.
  if (/^(ms|us|µs|μs|ns|millis|micros|nanos)$/.test(behind)) return { scale: last };
  const first = timeScale(parts[0]);
  if (first !== undefined && words.test(parts.slice(1).join(''))) return { scale: first };
  const glued = /^(t|time|timestamp|elapsed|epoch|unix)(ns|us|ms|s|sec|millis|micros|nanos)$/.exec(joined);
  if (glued) return { scale: timeScale(glued[2]) };
  // Several words of which one is time: `time since start`, `phone timestamp`, `device time`.
  if (parts.some((part) => /^(time|timestamp|elapsed|epoch|clock|datetime)$/.test(part))) return { scale: last };
  return undefined;
}

/** Whether a word names a quantity that is no time, so that `temp s` and `Temp (ms)` are none. */
export const isOtherQuantity = (word: string): boolean =>
  /^(temp|temperatur[ea]?|humid(ity)?|press(ure)?|druck|volt(age)?|batt(ery)?|current|power|load|force|speed|dist(ance)?|angle|phase|freq(uency)?|delay|latency|duration|dauer|pulse|width|exposure)$/.test(
    word.toLowerCase(),
  );

/** Whether a name is one of a time. */
export function isTimeName(name: string): boolean {
  return timeName(name) !== undefined;
}

/** Whether a name is one of the time since the row before: `dt`, `delta_us`, `step (ms)`. */
export function isStepName(name: string): boolean {
  const plain = name
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}]+/gu, '');
  return /^(dt|dtime|delta|deltat|deltatime|timedelta|timestep|timediff|difftime|diff|sinceprevious|interval|intervall)(s|ms|us|µs|ns|sec|millis|micros)?$/.test(
    plain,
  );
}

/** Whether a name is one of a row counter. */
export function isCounterName(name: string): boolean {
  const plain = name
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}#]+/gu, '');
  return /^(#|no|nr|num|number|n|i|idx|index|count|counter|line|row|rowid|rownumber|rownum|sample|samples|sampleno|samplenumber|sampleindex|samplecount|seq|sequence|seqno|packet|packetno|packetcounter|frame|record|recordno|recordnumber|point|id|laufnummer|zeile|messung)$/.test(
    plain,
  );
}

/** Whether a name is one of the sensor that a row of a long-form file comes from. */
export function isSensorName(name: string): boolean {
  const plain = name
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}]+/gu, '');
  return /^(sensor|sensorid|sensorname|sensorno|sensorindex|sensors|device|deviceid|devicename|deviceaddress|node|nodeid|address|mac|macaddress|source|imu|imuid|probe|unit|unitid|logger|loggerid|position|location|place|mount|channel|channelid|channelname|messstelle)$/.test(
    plain,
  );
}
