import { Engine } from '../../src/engine/engine.ts';
import { show } from '../../src/engine/show.ts';
import { studyRecording } from '../cli/study.ts';
import { MemoryHost, quietWatch } from '../engine/memoryFiles.ts';
import { medianOf, type Row } from './row.ts';

const load = 'runs = load "raw/a.csv"';
const trim = (from: number): string => `part = trim runs ${from}..80 s`;
const rest = [
  'S = spectrum part using window hann 2 s overlap 50 %\nplot S over 1..150 Hz',
  'levels part\nband S 4..10 Hz, 10..50 Hz, 50..100 Hz',
];

/** A typical run of 85 s and three channels: from the file to the charts, and again after an edit of its trim. */
export async function rows(): Promise<Row[]> {
  const text = studyRecording();
  const whole: number[] = [];
  const edited: number[] = [];
  for (let turn = 0; turn < 15; turn++) {
    // A fresh engine reads the file anew; the code is warm after the first turns.
    const engine = new Engine(new MemoryHost({ 'raw/a.csv': text }));
    whole.push(await time(engine, [load, trim(5), ...rest]));
    edited.push(await time(engine, [load, trim(6 + turn / 100), ...rest]));
  }
  const moved = await trimMoved();
  return [
    {
      what: '85 s, 3 channels: file to charts, warm',
      ours: medianOf(whole.slice(5)),
      goal: 100,
      note: 'load, trim, spectrum, plot, levels, bands',
    },
    { what: 'the same after an edit of the trim', ours: medianOf(edited.slice(5)), goal: 50 },
    { what: '85 s x 4 runs: a trim moved to its new trace', ours: moved.trace, goal: 30 },
    { what: 'the same to its new spectra', ours: moved.spectra, goal: 30 },
  ];
}

/** A trim of four runs that moves under the pointer: until its own chart, and until the chart of its spectra, is new. */
async function trimMoved(): Promise<Readonly<Record<'trace' | 'spectra', number>>> {
  const lines = studyRecording().split('\n');
  const runs = ['a', 'b', 'c', 'd'].map((name, at) => [`raw/${name}.csv`, lines.toSpliced(1 + at, 1).join('\n')]);
  const after = async (rest: string): Promise<number> => {
    const engine = new Engine(new MemoryHost(Object.fromEntries(runs) as Record<string, string>));
    const turns: number[] = [];
    for (let turn = 0; turn < 40; turn++)
      turns.push(await time(engine, ['runs = load "raw/*.csv" | channel z', trim(5 + turn / 100), rest]));
    return medianOf(turns.slice(10));
  };
  return { trace: await after('plot part'), spectra: await after(rest[0]) };
}

async function time(engine: Engine, cells: readonly string[]): Promise<number> {
  const began = process.cpuUsage();
  const report = await engine.run({ cells, wanted: 'all' }, quietWatch, (result) => void show(result));
  if (!report.ok) throw new Error('the notebook of the bench fails');
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1000;
}
