import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { openFile } from '../disk/bytes.ts';
import { look as lookAt } from '../engine/look.ts';
import type { ReadOptions } from '../readers/recording.ts';
import { success, type Result } from '../result/result.ts';
import { convert } from '../units/arithmetic.ts';
import { parseUnit, unit } from '../units/parse.ts';
import { parsed, texts } from './args.ts';
import { exitFor, say } from './exit.ts';
import { refuse } from './messages.ts';
import { print } from './terminal.ts';

/** `washboard look`: 0; 1 if a file can't be read; 2 for wrong usage. */
export async function look(args: readonly string[]): Promise<number> {
  const given = options(args);
  if (!given.ok) return exitFor(given);
  const { paths, readOptions } = given.value;
  let code = 0;
  for (const [index, path] of paths.entries()) {
    const found = statSync(path, { throwIfNoEntry: false });
    if (found?.isFile() !== true) {
      const isThere = found !== undefined && !found.isDirectory();
      say(refuse(isThere ? 'file.special' : 'file.missing', { path }));
      code = 1;
      continue;
    }
    const { lines, ok } = await lookAt(await openFile(resolve(path), path), readOptions);
    print(`${index === 0 ? '' : '\n'}${lines.join('\n')}\n`);
    if (!ok) code = 1;
  }
  return code;
}

interface LookOptions {
  readonly paths: readonly string[];
  readonly readOptions: ReadOptions;
}

function options(args: readonly string[]): Result<LookOptions> {
  const given = parsed(
    args,
    texts(
      ...(['time', 'unit', 'rate', 'delimiter', 'decimal', 'skip', 'scale', 'sensor', 'timezone'] as const),
      ...(['sentinel', 'comment', 'clock'] as const),
    ),
  );
  if (!given.ok) return given;
  const { values, positionals } = given.value;
  if (positionals.length === 0) return refuse('usage.files', {});
  const { time, delimiter, decimal, sensor, timezone, comment, clock } = values;
  if (decimal !== undefined && decimal !== '.' && decimal !== ',') return refuse('usage.decimal', {});
  const unitFound = values.unit === undefined ? undefined : parseUnit(values.unit);
  if (unitFound?.ok === false) return refuse('usage.unit', { given: values.unit ?? '' });
  const rate = values.rate === undefined ? undefined : hertzOf(values.rate);
  if (values.rate !== undefined && rate === undefined) return refuse('usage.rate', { given: values.rate });
  const [skip, scale] = [values.skip, values.scale].map((value) => (value === undefined ? undefined : Number(value)));
  if (skip !== undefined && !(Number.isInteger(skip) && skip >= 0)) return refuse('usage.skip', {});
  if (scale !== undefined && !Number.isFinite(scale)) return refuse('usage.scale', {});
  const sentinels = values.sentinel?.split(',').map((text) => (text.trim() === '' ? NaN : Number(text)));
  if (sentinels?.some(Number.isNaN) === true) return refuse('usage.sentinel', { given: values.sentinel ?? '' });
  if (comment !== undefined && comment !== 'none') return refuse('usage.comment', {});
  if (clock !== undefined && clock !== 'hh:mm' && clock !== 'mm:ss') return refuse('usage.clock', {});
  const entries = {
    time,
    unit: unitFound?.unit.symbol,
    rate,
    delimiter: delimiter?.replace('\\t', '\t'),
    decimal,
    skip,
    scale,
    sensors: sensor?.split(','),
    sentinels,
    comment,
    clock,
    timezone,
  };
  const said = Object.entries(entries).filter(([, value]) => value !== undefined);
  return success({ paths: positionals, readOptions: Object.fromEntries(said) });
}

/** A frequency with or without its unit. */
function hertzOf(text: string): number | undefined {
  const match = /^([0-9.eE+-]+)\s*(\S*)$/.exec(text.trim());
  const found = match === null ? undefined : parseUnit(match[2] === '' ? 'Hz' : match[2]);
  if (match === null || found?.ok !== true) return undefined;
  const rate = convert({ value: Number(match[1]), unit: found.unit }, unit('Hz'))?.value;
  return rate !== undefined && rate > 0 && Number.isFinite(rate) ? rate : undefined;
}
