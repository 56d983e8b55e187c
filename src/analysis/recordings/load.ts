import { readChecked } from '../../readers/readChecked.ts';
import type { ClockParts, ReadOptions } from '../../readers/recording.ts';
import { bareName } from '../../result/fileNames.ts';
import { answered, refused, success, type Answer, type Result, type Warning } from '../../result/result.ts';
import type { CalibrationValue } from '../../values/calibration.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import type { Files, ReadRecording, WantedRecording, Watch } from '../../values/ports.ts';
import { changed } from '../../values/resultant.ts';
import type { Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/recordings.ts';
import { withCalibration } from './calibrate.ts';
import { findingsOn, signalNames, warningOf } from './faults.ts';
import { chosenFiles, type ChosenFile, type Wanted } from './choice.ts';
import { runOf } from './recordedRun.ts';
import { sensorNamed, sensorOf } from './sensors.ts';

export type { ClockParts };

/** What is to be loaded, and how it is to be read. */
export interface LoadRequest extends Wanted {
  /** Whether runs that the sheet excludes are taken in, too. */
  readonly including: boolean;
  /** What the set is called. */
  readonly label: string | undefined;
  /** The channels to take; none named: all axes of acceleration, else all columns. */
  readonly channels: readonly string[];
  /** Relative standard uncertainty of the sensors' sensitivity, where it is stated. */
  readonly sensitivity: number | undefined;
  /** From still positions, where it is to be applied. */
  readonly calibration: CalibrationValue | undefined;
  /** What is stated by hand of the files' layout. */
  readonly reading: ReadOptions;
}

export interface Outside {
  readonly files: Files;
  readonly watch: Watch;
}

/** The recordings that a set is made of. */
export interface Listing {
  /** What the set is called. */
  readonly set: string | undefined;
  /** In the order of the set, those among them that the sheet leaves out. */
  readonly recordings: readonly ListedRecording[];
  /** Runs that the sheet leaves out and whose recording is not there. */
  readonly lost: readonly ExcludedRun[];
  /** Told before and after what the recordings tell. */
  readonly before: readonly Warning[];
  readonly after: readonly Warning[];
}

/** A recording of a set. */
export interface ListedRecording {
  readonly wanted: WantedRecording;
  /** What its run depends on besides the bytes of its file and how it is read; plain data. */
  readonly key: unknown;
  /** Whether the sheet leaves it out. */
  readonly isExcluded: boolean;
  /** The run, with what reading found. */
  run(read: ReadRecording): Answer<Run>;
  /** The run as one that the sheet leaves out: its recording need not be readable. */
  excluded(read: ReadRecording): ExcludedRun;
}

/** Which recordings a load is of, in order. Refuses what can't be found. */
export async function listed(request: LoadRequest, files: Files): Promise<Answer<Listing>> {
  const choice = await chosenFiles(request, files);
  if (!choice.ok) return choice;
  const { files: chosen, lost } = choice.value;
  const { label, including } = request;
  const labels = labelsOf(chosen, label);
  const left = chosen.flatMap(({ excluded, path }, index) =>
    excluded === undefined || including ? [] : [{ label: labels[index], why: excluded, path }],
  );
  const missing = lost.map(missingRun);
  return answered({
    set: label,
    recordings: chosen.map((file, index) => listedRecording(file, labels[index], request)),
    lost: missing,
    before: choice.warnings,
    after: excludedWarnings([...missing, ...left]),
  });
}

function listedRecording(file: ChosenFile, label: string, request: LoadRequest): ListedRecording {
  const { including } = request;
  return {
    wanted: wantedRecording(file.path, request),
    key: { file, label },
    isExcluded: file.excluded !== undefined && !including,
    run: (read) => {
      const run = runIn(read, file, label, request);
      if (!run.ok) return run;
      const found = findingsOn(run.value, signalNames(run.value));
      const remarkable = found.filter(({ severity }) => severity !== 'note');
      return answered(
        run.value,
        remarkable.map((finding) => warningOf(label, finding)),
      );
    },
    excluded: (read) => excludedRun(file, label, runIn(read, file, label, request)),
  };
}

/**
 * The runs of recordings, in order, those that the run sheet excludes apart. Refuses what can't be found or read in one
 * way only, and what settles no unit; what reading found warns.
 */
export async function loaded(request: LoadRequest, outside: Outside): Promise<Answer<RunsValue>> {
  const listing = await listed(request, outside.files);
  if (!listing.ok) return listing;
  const { set, recordings, lost, before, after } = listing.value;
  const runs: Run[] = [];
  const excluded = [...lost];
  const warnings: Warning[] = [];
  const read = readingsOf(recordings, outside);
  for (const [index, recording] of recordings.entries()) {
    const reading = await read.of(index);
    if (recording.isExcluded) excluded.push(recording.excluded(reading));
    else {
      const run = recording.run(reading);
      if (!run.ok) {
        read.stop();
        return run;
      }
      runs.push(run.value);
      warnings.push(...run.warnings);
    }
  }
  const value: RunsValue = { kind: 'runs', set, runs, ...(excluded.length === 0 ? {} : { excluded }) };
  return answered(value, [...before, ...warnings, ...after]);
}

/** One sentence that lists the `excluded` runs and why they are; none where there are none. */
function excludedWarnings(excluded: readonly Pick<ExcludedRun, 'label' | 'why'>[]): Warning[] {
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
function runIn(
  { recording, identity }: ReadRecording,
  { path, facts }: ChosenFile,
  label: string,
  request: LoadRequest,
): Result<Run> {
  if (!recording.ok) return refused({ ...recording.failure, at: 'files' });
  // What was read has an identity.
  const run = runOf(recording.value, { path, ...identity! }, label, request);
  if (!run.ok) return run;
  const { sensitivity, calibration, reading } = request;
  const sensor = sensorNamed(facts, reading.sensors);
  const named = sensor === undefined ? run.value : { ...run.value, sensor };
  if (named.long !== undefined && calibration !== undefined) return refuse('load.long', { run: label }, 'calibration');
  const scaled = calibration === undefined ? stated(named, sensitivity) : withCalibration(named, calibration);
  return scaled.ok && facts !== undefined ? success({ ...scaled.value, sheet: facts }) : scaled;
}

const stated = (run: Run, sensitivity: number | undefined): Result<Run> =>
  success(sensitivity === undefined ? run : calibratedTo(run, sensitivity));

/** A run of channels whose sensors are known so well; each axis has an error of its own. */
const calibratedTo = (run: Run, relative: number): Run => ({
  ...run,
  channels: run.channels.map((channel) =>
    changed(channel, (signal) => ({
      ...signal,
      calibration: { relative, sensor: sensorOf(run), axis: signal.name },
    })),
  ),
});

/** Recordings as they are read, and a way to have no more of them. */
export interface Readings {
  /** The reading of one of them, by its index. */
  of(index: number): Promise<ReadRecording>;
  stop(): void;
}

/** Has recordings read, as many at a time as the host can. */
export function readingsOf(
  recordings: readonly Pick<ListedRecording, 'wanted'>[],
  { files, watch }: Outside,
): Readings {
  let isStopped = false;
  const stop = (): void => void (isStopped = true);
  const wanted = recordings.map((one) => one.wanted);
  const watched: Watch = { ...watch, cancelled: () => isStopped || watch.cancelled() };
  const all = files.read?.(wanted, watched);
  // Those behind the first that fails are asked for by nobody.
  for (const one of all ?? []) one.catch(() => undefined);
  return { of: (index) => all?.[index] ?? readOne(wanted[index], files, watched, index / wanted.length), stop };
}

/** What is asked of a file for a load. */
export const wantedRecording = (path: string, { reading, channels }: LoadRequest): WantedRecording => ({
  path,
  options: reading,
  channels,
});

async function readOne(
  { path, options }: WantedRecording,
  files: Files,
  watch: Watch,
  done: number,
): Promise<ReadRecording> {
  const recording = await readChecked(await files.open(path), options, {
    cancelled: watch.cancelled,
    progress: (fraction) => watch.progress(done + fraction * (1 - done), `reading ${path}`),
  });
  return { recording, identity: recording.ok ? await files.identify(path) : undefined };
}

/** Run labels: the files' names without endings, told apart by their folders where they are the same. */
function labelsOf(files: readonly ChosenFile[], label: string | undefined): string[] {
  if (label !== undefined && files.length === 1) return [label];
  const names = files.map(({ path }) => bareName(path));
  const [once, again] = [new Set<string>(), new Set<string>()];
  for (const name of names) (once.has(name) ? again : once).add(name);
  return names.map((name, index) => (again.has(name) ? files[index].path : name));
}
