import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { Sandbox } from './sandbox.ts';
import { studyRecording } from './study.ts';

// Source of the figures: numpy and scipy, by scripts/reference/makeStudyVectors.py, which names their versions.
interface Vectors {
  readonly rate_hz: number;
  readonly samples: number;
  readonly levels: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly psd: { readonly spacing_hz: number; readonly density: readonly number[] };
  readonly blackman_harris: { readonly spacing_hz: number; readonly density: readonly number[] };
  readonly amplitude: { readonly spacing_hz: number; readonly amplitude: readonly number[] };
  readonly bands: readonly { readonly from_hz: number; readonly to_hz: number; readonly rms: number }[];
}
const expected = JSON.parse(
  readFileSync(new URL('../published/vectors/study.json', import.meta.url), 'utf8'),
) as Vectors;

const notebook = `# A recording of 85 s

\`\`\`washboard
run = load "raw/a.csv"
part = trim run 5..80 s
\`\`\`

\`\`\`washboard
L = levels part
W = window hann 2 s overlap 50 %
z = channel part z
S = spectrum z using W
B = band S ${expected.bands.map(({ from_hz, to_hz }) => `${from_hz}..${to_hz} Hz`).join(', ')}
H = spectrum z using window blackman-harris 1.5 s overlap 66 %
F = spectrum z using window flattop 2 s overlap 75 % as amplitude
\`\`\`
`;

function close(found: number | null, wanted: number, tolerance: number, what: string): void {
  assert.ok(
    found !== null && Math.abs(found - wanted) <= tolerance * Math.abs(wanted),
    `${what}: ${found} instead of ${wanted}`,
  );
}

describe('the figures of `run --json`, against numpy and scipy', () => {
  let sandbox: Sandbox;
  before(() => {
    sandbox = new Sandbox({ 'raw/a.csv': studyRecording(), 'study.washboard.md': notebook });
  });
  after(() => sandbox.remove());

  it('agree in levels to 1e-9 and in spectra and bands to 1e-9', async () => {
    const { code, json, errors } = await sandbox.runJson('study.washboard.md');
    assert.equal(errors, '');
    assert.equal(code, 0);
    const value = (name: string): unknown => {
      const statement = json.cells.flatMap(({ statements }) => statements).find((one) => one.name === name);
      assert.equal(statement?.error, null, name);
      return statement?.value;
    };
    const part = (
      value('part') as { runs: { samples: number; rate_hz: number; start_s: number; duration_s: number }[] }
    ).runs[0];
    assert.equal(part.samples, expected.samples);
    close(part.rate_hz, expected.rate_hz, 1e-12, 'rate');
    close(part.duration_s, expected.samples / expected.rate_hz, 1e-12, 'duration');
    close(part.start_s, Math.ceil(5 * expected.rate_hz - 1e-6) / expected.rate_hz, 1e-9, 'start');
    for (const row of (value('L') as { rows: (Record<string, number> & { channel: string })[] }).rows) {
      for (const [name, wanted] of Object.entries(expected.levels[row.channel]))
        close(row[name], wanted, 1e-9, `${row.channel} ${name}`);
    }
    const spectra = {
      S: ['density', expected.psd.density, 0],
      H: ['density', expected.blackman_harris.density, 0],
      F: ['amplitude', expected.amplitude.amplitude, 1],
    } as const;
    for (const [name, [key, wanted, first]] of Object.entries(spectra)) {
      const found = (value(name) as { runs: Record<string, number[]>[] }).runs[0][key];
      wanted.forEach((level, k) => close(found[k + first], level, 1e-9, `${name}, bin ${k + first}`));
    }
    close((value('S') as { spacing_hz: number }).spacing_hz, expected.psd.spacing_hz, 1e-12, 'spacing');
    (value('B') as { rows: { rms: number }[] }).rows.forEach((row, k) =>
      close(row.rms, expected.bands[k].rms, 1e-9, `band ${k}`),
    );
  });
});
