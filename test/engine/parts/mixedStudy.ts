/** A study of many recordings of which some are faulty, uneven, short, resampled or no recordings at all. */

const header = 't (s),x (g),y (g),z (g)';

/** Numbers from -0.5 to 0.5 that follow from a seed. */
function noiseOf(seed: number): () => number {
  let state = seed * 7919 + 13;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
}

interface Made {
  readonly seed: number;
  readonly seconds: number;
  readonly rate: number;
  /** Share of a step by which each stamp is off. */
  readonly jitter: number;
  /** Rows that are left out in the middle. */
  readonly gap: number;
  /** The largest reading that is written. */
  readonly most: number;
  readonly axes: number;
}

/** A recording of some axes in g as text, with a line at 12 to 16 Hz. */
export function recordingOf({ seed, seconds, rate, jitter, gap, most, axes }: Made): string {
  const noise = noiseOf(seed);
  const rows = [
    header
      .split(',')
      .slice(0, axes + 1)
      .join(','),
  ];
  for (let i = 0; i < seconds * rate; i++) {
    if (i > 300 && i <= 300 + gap) continue;
    const t = i / rate + (jitter * noise()) / rate;
    const line = 0.4 * Math.sin(2 * Math.PI * (12 + (seed % 5)) * t) + (i % 977 === 500 ? 2.5 : 0);
    const values = [0.2 * noise(), 0.2 * noise(), 1 + line + 0.2 * noise()].slice(3 - axes);
    rows.push([t.toFixed(4), ...values.map((value) => Math.min(most, value).toFixed(4))].join(','));
  }
  return `${rows.join('\n')}\n`;
}

/** Sixty recordings, a few of each fault among them, and a run sheet of the first twenty. */
export function mixedFiles(): Record<string, string> {
  const files: Record<string, string> = {};
  for (let n = 1; n <= 60; n++) {
    const made: Made = {
      seed: n,
      seconds: n % 11 === 0 ? 6 : 12,
      rate: n % 7 === 0 ? 100 : 200,
      jitter: n % 13 === 0 ? 0.5 : n % 17 === 0 ? 1.6 : 0,
      gap: n % 9 === 0 ? 40 : 0,
      most: n % 8 === 0 ? 1.3 : 9,
      axes: 3,
    };
    files[`raw/${n <= 20 ? 'a' : n <= 40 ? 'b' : 'c'}-${n}.csv`] = recordingOf(made);
  }
  const even = { seconds: 8, rate: 200, jitter: 0, gap: 0, most: 9 };
  files['raw/one/same.csv'] = recordingOf({ ...even, seed: 71, axes: 3 });
  files['raw/two/same.csv'] = recordingOf({ ...even, seed: 72, axes: 3 });
  files['raw/flat-1.csv'] = recordingOf({ ...even, seed: 73, axes: 2 }).replace(header, 't (s),y (g),z (g)');
  files['raw/flat-2.csv'] = recordingOf({ ...even, seed: 74, axes: 3 });
  files['raw/bad-1.csv'] = recordingOf({ ...even, seed: 75, axes: 3 });
  files['raw/bad-2.csv'] = 'no table at all\nnothing to see\n';
  files['raw/bad-3.csv'] = '';
  // Their second axis alone is clipped.
  for (const n of [1, 2, 3])
    files[`raw/side-${n}.csv`] = recordingOf({ ...even, seed: 80 + n, axes: 3 }).replace(
      /^([^,]+,[^,]+),(-?[\d.]+)/gm,
      (_, before: string, y: string) => `${before},${Math.min(0.06, Number(y)).toFixed(4)}`,
    );
  const row = (n: number): string =>
    [
      `a-${n}.csv`,
      n % 2 === 0 ? 'gel' : 'foam',
      n,
      n % 6 === 0 ? 'yes,hit a kerb' : ',',
      n < 10 ? '1.2' : '1.4',
    ].join();
  const rows = Array.from({ length: 20 }, (_, index) => row(index + 1));
  const sheet = ['file,condition,order,excluded,why,speed (m/s)', ...rows];
  files['raw/runs.csv'] = [
    ...sheet,
    'lost.csv,foam,21,yes,the card broke,1.2',
    'bad-2.csv,foam,22,yes,no data,1.2',
  ].join('\n');
  return files;
}

/** Cells over them: sets by pattern and by sheet, chains behind names and within lines, failures at each step. */
export const mixedCells: readonly string[] = [
  'a = load "raw/a-*.csv" label "a"\nb = load "raw/b-*.csv" | channel z\nfoam = load sheet "raw/runs.csv" where condition foam | trim 1..5 s\ngel = load sheet "raw/runs.csv" where condition gel including excluded | trim 1..5 s',
  'near = trim a 0.5..5 s\nlevels near\nS = spectrum near using window hann 1 s\nband S 4..10 Hz, 10..40 Hz\npeaks S 5..40 Hz\nrunning near over 0.02 s',
  'spectrum (load "raw/b-*.csv" | channel z | trim 1..5 s) using window hann 2 s',
  'load "raw/c-*.csv" | trim 1..6 s | resultant | levels',
  'levels (weight (trim (load "raw/c-*.csv") 0..5 s) wd wd wk)\nload "raw/c-4*.csv" | trim 0..5 s | highpass 0.5 Hz | levels\nload "raw/c-4*.csv" | trim 0..5 s | weight wd wd wk | resultant | levels',
  'load "raw/c-4*.csv" | resample 250 Hz | trim 0..4 s\nload "raw/a-1*.csv" | channel z | integrate velocity above 2 Hz | levels\nload "raw/a-1*.csv" | channel z | envelope 5..40 Hz | levels',
  'transfer (load "raw/a-*.csv" | trim 1..5 s) from x to z using window hann 1 s\ntransfer foam from x to z using window hann 0.5 s align',
  'spectrogram (load "raw/a-1*.csv" | channel z) using window hann 1 s\norders (spectrum foam using window hann 1 s) by 1.2 m/s',
  'check foam\ncheck gel over 4..20 Hz\nlevels foam\ntable foam\nmethods foam',
  'compare foam with gel over 4..10 Hz, 10..40 Hz axes x, z\ncompare (spectrum foam using window hann 1 s) with (spectrum gel using window hann 1 s) over 4..10 Hz axis z',
  'same = load "raw/one/same.csv", "raw/two/same.csv"\nlevels same\nlevels same[2]\ntrim same[1] 1..2 s\nlevels (trim same[1] 1..2 s)\nw = same in m/s^2\nlevels w',
  // Each of these fails, in another step.
  'trim a 1..9 s',
  'load "raw/bad-*.csv" | trim 1..9 s | levels',
  'load "raw/a-*.csv" | trim 1..9 s | channel q | levels',
  'spectrum (load "raw/a-*.csv") using window hann 8 s',
  'load "raw/a-*.csv" | trim 8..9 s | highpass 150 Hz',
  'load "raw/flat-*.csv" | resultant | levels',
  'load "raw/flat-*.csv" | channel x',
  'load "raw/none-*.csv" | trim 1..2 s',
  'bad = load "raw/bad-1.csv", "raw/bad-3.csv"\nlevels bad\ntrim bad 1..2 s',
  'weight (weight near wk) wk\nload "raw/a-1.csv" | highpass 2 Hz order 2 | detrend linear | lowpass 60 Hz | bandpass 4..40 Hz | levels',
  'levels (trim (load "raw/a-1.csv") 0 s..4 s) | levels',
  't = 2 s\ntrim a from t length (levels same[1]).duration\nspectrum (trim a from t length 2 s) using window hann (levels same).rms',
  'running (load "raw/a-1*.csv" | trim 1..5 s) over 9 s',
  // What is found of one axis, in loads of which a later step takes others.
  'load "raw/side-*.csv" | trim 1..5 s | channel y\nload "raw/side-*.csv" | trim 1..5 s | channel z\nlevels (channel (load "raw/side-*.csv") x z)',
  's = load "raw/side-*.csv"\nchannel s z\nchannel ((load "raw/side-*.csv") in m/s^2) z\nload "raw/side-*.csv" | highpass 2 Hz | channel x z | resultant',
  'load "raw/side-*.csv" | channel z | trim 1..9 s',
  'load "raw/side-*.csv" | channel q',
  // One file, read in several ways.
  'u = load "raw/one/same.csv" label "u" calibration 2 %\nv = load "raw/one/same.csv" label "u" calibration 5 %\nK = calibrate (load "raw/flat-2.csv")\nw2 = load "raw/one/same.csv" label "u" calibration K\nlevels u\nlevels v\nlevels w2\nu.rate in Hz',
];
