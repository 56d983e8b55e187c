import { calibrationOf, type Calibration } from '../calibration.ts';
import { timeScale } from '../timeNames.ts';
import { unitSymbol } from '../units.ts';
import { couldBeThousands, type DecimalMark } from './number.ts';
import { isBlank, uncommented } from './fields.ts';
import { startTimeIn, type StartTime } from './startTime.ts';

/** What the lines above the header say. */
export interface Preamble {
  readonly lines: readonly string[];
  readonly keys: Readonly<Record<string, string>>;
  /** Samples a second, where a key states a rate or a period with its unit. */
  readonly rate: number | undefined;
  readonly rateKey: string | undefined;
  /** The unit of acceleration that a key states, as the file spells it. */
  readonly unit: string | undefined;
  /** What one count is on each axis, where keys state it for all three. */
  readonly calibration: Calibration | undefined;
  /** Samples that the logger says it lost. */
  readonly dropped: number | undefined;
  /** When the recording began. */
  readonly start: StartTime | undefined;
}

/** A line with a key and a value is short; a longer one is not searched for them. */
const longest = 400;

/** @param decimal the rows' decimal mark, by which a preamble's `25,600` is one number or could be two */
export function readPreamble(lines: readonly string[], decimal: DecimalMark): Preamble {
  const kept = lines.filter((line) => !isBlank(line));
  const keys: Record<string, string> = {};
  for (const line of kept) for (const [key, value] of pairsOf(uncommented(line))) keys[key] ??= value;
  const entries = Object.entries(keys);
  const rates = entries.flatMap(([key, value]) => {
    const rate = rateOf(key, value, decimal);
    return rate === undefined ? [] : [{ key, rate }];
  });
  // Two keys that state different rates (of the sensor and of the file, say) settle nothing.
  const agreed = rates.every(({ rate }) => Math.abs(rate / rates[0].rate - 1) < 1e-6) ? rates[0] : undefined;
  return {
    lines: kept,
    keys,
    rate: agreed?.rate,
    rateKey: agreed?.key,
    unit: entries.flatMap(([key, value]) => unitOf(key, value) ?? [])[0],
    calibration: calibrationOf(entries),
    dropped: entries.flatMap(([key, value]) => droppedOf(key, value) ?? [])[0],
    start: startTimeIn(entries),
  };
}

function pairsOf(line: string): [string, string][] {
  if (line.length > longest) return [];
  const several = [
    ...line.matchAll(/([\p{L}_][\p{L}\d_ ]*?)\s*=\s*("[^"]*"|[^\s,;]+(?:\s+(?:[kM]?Hz|g|m?s|us|µs)\b)?)/gu),
  ];
  if (several.length > 1) return several.map((match) => [match[1].trim(), match[2].replace(/"/g, '')]);
  // `Sampling rate 100 Hz`, `100 Hz sampling rate`
  const bare = /^\s*([\p{L} _-]{2,40}?)\s+(\d[\d.,]*\s?(?:k?Hz|[mµu]?s))\s*$/u.exec(line);
  if (bare) return [[bare[1], bare[2]]];
  const turned = /^\s*(\d[\d.,]*\s?(?:k?Hz|[mµu]?s))\s+([\p{L} _-]{2,40}?)\s*$/u.exec(line);
  if (turned) return [[turned[2], turned[1]]];
  const match = /^\s*"?([^:=,;\t"]{1,60}?)"?\s*(?::|=|,|;|\t)[\s:=,;]*"?(.*?)"?[\s,;]*$/.exec(line);
  return match && /\p{L}/u.test(match[1]) && match[2] !== '' ? [[match[1].trim(), match[2].trim()]] : [];
}

function amount(value: string): { readonly number: number; readonly unit: string } | undefined {
  const match = /^([+-]?\d+(?:[.,]\d+)?(?:[eE][+-]?\d+)?)\s*([^\d\s].*)?$/.exec(value.trim());
  return match ? { number: Number(match[1].replace(',', '.')), unit: (match.at(2) ?? '').trim() } : undefined;
}

const bracket = /[([]\s*([^)\]]*?)\s*[)\]]/;

const rateName =
  /^(fs|odr|sps)$|(sampl|output|data|acqui|scan|logging|measur|record)\w*[ _-]*(data[ _-]*)?(rate|freq\w*)|^(rate|frequency|freq)(_k?hz)?$|^(abtast|mess|sampling|takt)\w*(rate|frequenz)$|^samples? ?(per|\/|a) ?s(ec(ond)?)?$|(frequence|cadence|taux) (d[ '’]?|de |des )?(echantillonnage|acquisition|mesures?)/;
const periodName =
  /(sampl\w*|data|scan|logging|time)[ _-]*(period|interval|step)|^(period|interval|dt|delta[ _]?t)(_(s|ms|us))?$|^(abtast|mess|sampling)\w*(intervall|periode|zeit)$|(periode|intervalle|pas) (d[ '’]?|de |des )?(echantillonnage|acquisition|mesures?)/;

function rateOf(key: string, value: string, decimal: DecimalMark): number | undefined {
  const written = /^[+-]?[\d.,]+/.exec(value.trim())?.[0] ?? '';
  // 25,600 Hz is 25600 to some and 25.6 to others: then the rate is asked for.
  if (couldBeThousands(written, ',') || (decimal === ',' && couldBeThousands(written, '.'))) return undefined;
  const read = amount(value);
  if (!read || !(read.number > 0)) return undefined;
  const name = key.replace(bracket, '').trim().normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
  const suffix = /_(hz|khz|s|ms|us)$/.exec(name)?.[1] ?? '';
  const unit = read.unit.replace(/^[\s,;]+/, '').replace(/[.,;].*$/, '') || (bracket.exec(key)?.[1] ?? suffix);
  if (rateName.test(name)) {
    if (/^(k ?hz|ks\/s|ksps)$/i.test(unit)) return read.number * 1000;
    return /^(|hz|s\/s|sps|sa\/s|samples?\/s(ec)?|samples? (per|a) second|1\/s)$/i.test(unit) ? read.number : undefined;
  }
  if (periodName.test(name)) {
    const scale = timeScale(unit);
    return scale === undefined ? undefined : 1 / (read.number * scale);
  }
  return undefined;
}

function unitOf(key: string, value: string): string | undefined {
  if (!/^(units?|acc\w*[ _]units?|units? of acc\w*|data units?|einheit)$/i.test(key.trim())) return undefined;
  return unitSymbol(value) === undefined ? undefined : value.trim();
}

function droppedOf(key: string, value: string): number | undefined {
  if (!/\b(dropped|lost|missed|missing|overruns?|skipped)\b/i.test(key.replace(/_/g, ' '))) return undefined;
  const read = amount(value);
  return read && Number.isInteger(read.number) ? read.number : undefined;
}
