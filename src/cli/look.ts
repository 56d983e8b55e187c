import { existsSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { openFile } from '../disk/files.ts';
import { look as lookAt } from '../engine/look.ts';
import type { ReadOptions } from '../readers/recording.ts';
import { convert } from '../units/arithmetic.ts';
import { parseUnit, unit } from '../units/parse.ts';
import { wrong } from './wrong.ts';

/** `washboard look`: 0; 1 if a file can't be read; 2 for wrong usage. */
export async function look(words: readonly string[]): Promise<number> {
  const asked = understand(words);
  if (typeof asked === 'string') return wrong(asked);
  let code = 0;
  for (const [index, path] of asked.paths.entries()) {
    if (!existsSync(path) || statSync(path).isDirectory()) {
      process.stderr.write(`washboard: there is no file ${path}.\n`);
      code = 1;
      continue;
    }
    const { lines, ok } = await lookAt(await openFile(resolve(path), path), asked.options);
    process.stdout.write(`${index === 0 ? '' : '\n'}${lines.join('\n')}\n`);
    if (!ok) code = 1;
  }
  return code;
}

function understand(words: readonly string[]): { paths: readonly string[]; options: ReadOptions } | string {
  const text = { type: 'string' } as const;
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      options: {
        time: text,
        unit: text,
        rate: text,
        delimiter: text,
        decimal: text,
        skip: text,
        scale: text,
        sensor: text,
        timezone: text,
      },
      allowPositionals: true,
    });
    if (positionals.length === 0) return 'name a file to look at.';
    const { time, delimiter, decimal, sensor, timezone } = values;
    if (decimal !== undefined && decimal !== '.' && decimal !== ',') return '--decimal is "." or ",".';
    const unitFound = values.unit === undefined ? undefined : parseUnit(values.unit);
    if (unitFound?.ok === false) return `--unit "${values.unit}" is no known unit.`;
    const rate = values.rate === undefined ? undefined : hertzOf(values.rate);
    if (values.rate !== undefined && rate === undefined)
      return `--rate takes a frequency, such as "400 Hz", not "${values.rate}".`;
    const [skip, scale] = [values.skip, values.scale].map((value) => (value === undefined ? undefined : Number(value)));
    if (skip !== undefined && !(Number.isInteger(skip) && skip >= 0)) return '--skip takes a whole number of lines.';
    if (scale !== undefined && !Number.isFinite(scale)) return '--scale takes a number.';
    const entries = {
      time,
      unit: unitFound?.ok ? unitFound.unit.symbol : undefined,
      rate,
      delimiter: delimiter?.replace('\\t', '\t'),
      decimal,
      skip,
      scale,
      sensor,
      timezone,
    };
    return {
      paths: positionals,
      options: Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as ReadOptions,
    };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** A frequency with or without its unit. */
function hertzOf(text: string): number | undefined {
  const match = /^([0-9.eE+-]+)\s*(\S*)$/.exec(text.trim());
  const parsed = match === null ? undefined : parseUnit(match[2] === '' ? 'Hz' : match[2]);
  if (match === null || parsed?.ok !== true) return undefined;
  const found = convert({ value: Number(match[1]), unit: parsed.unit }, unit('Hz'))?.value;
  return found !== undefined && found > 0 && Number.isFinite(found) ? found : undefined;
}
