import { readChecked } from '../../readers/readChecked.ts';
import type { ClockParts, ReadOptions, Recording } from '../../readers/recording.ts';
import { answered, refused, success, type Answer, type Result, type Warning } from '../../result/result.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import type { Files, Watch } from '../../values/ports.ts';
import type { Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { findingOf } from '../../readers/messages.ts';
import { tell } from '../messages/recordings.ts';
import { chosenFiles, type ChosenFile, type Wanted } from './choice.ts';
import { runOf } from './recordedRun.ts';

export type { ClockParts };

/** What is to be loaded, and how it is to be read. */
export interface LoadRequest extends Wanted {
  /** Whether runs that the sheet excludes are taken in, too. */
  readonly including: boolean;
  /** What the set is called. */
  readonly label: string | undefined;
  /** The channels to take; none named: all axes of acceleration, else all columns. */
  readonly channels: readonly string[];
  /** What is stated by hand of the files' layout. */
  readonly reading: ReadOptions;
}

export interface Outside {
  readonly files: Files;
  readonly watch: Watch;
}

/**
 * The runs of recordings, in order, those that the run sheet excludes apart. Refuses what can't be found or read in one
 * way only, and what settles no unit; what reading found warns.
 */
export async function loaded(request: LoadRequest, outside: Outside): Promise<Answer<RunsValue>> {
  const choice = await chosenFiles(request, outside.files);
  if (!choice.ok) return choice;
  const { files, lost } = choice.value;
  const { label } = request;
  const labels = labelsOf(files, label);
  const runs: Run[] = [];
  const excluded = lost.map((file) => missingRun(file));
  const warnings: Warning[] = [...choice.warnings];
  for (const [index, file] of files.entries()) {
    const run = await readRun(file, labels[index], request, outside, index / files.length);
    if (file.excluded !== undefined && !request.including) {
      excluded.push(excludedRun(file, labels[index], run));
      continue;
    }
    if (!run.ok) return run;
    runs.push(run.value);
    const remarkable = run.value.findings.filter(({ severity }) => severity !== 'note');
    warnings.push(...remarkable.map((finding) => findingOf(labels[index], finding)));
  }
  const value: RunsValue = { kind: 'runs', set: label, runs, ...(excluded.length === 0 ? {} : { excluded }) };
  return answered(value, [...warnings, ...excludedWarnings(excluded)]);
}

/** One sentence that lists the `excluded` runs and why they are; none where there are none. */
function excludedWarnings(excluded: readonly ExcludedRun[]): Warning[] {
  if (excluded.length === 0) return [];
  return [tell('runs.excluded', { runs: excluded.map(({ label, why }) => ({ label, why })), canInclude: false })];
}

const reasonOf = ({ excluded = 'no reason given' }: ChosenFile): string => excluded;

/** A run that the sheet leaves out, and whose recording is not there. */
function missingRun(file: ChosenFile): ExcludedRun {
  const label = bareName(file.path);
  const { message } = tell('runs.missing', { run: label, path: file.path });
  return { label, path: file.path, why: reasonOf(file), run: undefined, obstacle: message };
}

/** A run that the sheet leaves out, as it was read, or why it could not be. */
function excludedRun(file: ChosenFile, label: string, run: Result<Run>): ExcludedRun {
  const about = { label, path: file.path, why: reasonOf(file) };
  return run.ok ? { ...about, run: run.value } : { ...about, run: undefined, obstacle: run.failure.message };
}

/** One file's run, with what the sheet says of it. */
async function readRun(
  { path, facts }: ChosenFile,
  label: string,
  request: LoadRequest,
  outside: Outside,
  done: number,
): Promise<Result<Run>> {
  const recording = await readOne(path, request.reading, outside, done);
  if (!recording.ok) return recording;
  const file = { path, ...(await outside.files.identify(path)) };
  const run = runOf(recording.value, file, label, request);
  return run.ok && facts !== undefined ? success({ ...run.value, sheet: facts }) : run;
}

async function readOne(
  path: string,
  options: ReadOptions,
  { files, watch }: Outside,
  done: number,
): Promise<Result<Recording>> {
  const found = await readChecked(await files.open(path), options, {
    cancelled: watch.cancelled,
    progress: (fraction) => watch.progress(done + fraction * (1 - done), `reading ${path}`),
  });
  return found.ok ? found : refused({ ...found.failure, at: 'files' });
}

/** Run labels: the files' names without endings, told apart by their folders where they are the same. */
function labelsOf(files: readonly ChosenFile[], label: string | undefined): string[] {
  if (label !== undefined && files.length === 1) return [label];
  const names = files.map(({ path }) => bareName(path));
  return names.map((name, index) => (names.filter((other) => other === name).length > 1 ? files[index].path : name));
}

/** A file's name without folder and endings. */
const bareName = (path: string): string => (path.split('/').pop() ?? path).replace(/(\.[A-Za-z0-9]{1,8}){1,2}$/, '');
