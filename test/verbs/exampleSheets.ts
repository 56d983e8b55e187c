const runs = ['1', '2', '3', '4'];
const sheet = (header: string, foam: (k: number) => string, gel: (k: number) => string): string =>
  [
    `file,condition,${header}`,
    ...runs.map((run, k) => `brick-foam-${run}.csv.gz,foam,${foam(k)}`),
    ...runs.map((run, k) => `brick-gel-${run}.csv.gz,gel,${gel(k)}`),
  ].join('\n') + '\n';

/** Run sheets over the samples' rides on bricks, for studies that the samples do not make. */
export const exampleSheets = {
  // All of foam in the morning, all of gel in the afternoon, faster, heavier and with harder tyres.
  'raw/other-day.csv': sheet(
    'order,speed (m/s),mass (kg),load (kg),pressure (bar),temperature (°C)',
    (k) => `${k + 1},1.20,75,5.0,5.0,${12 + 0.5 * k}`,
    (k) => `${k + 5},1.26,80,5.3,5.3,${19 + 0.5 * k}`,
  ),
  'raw/days.csv': sheet(
    'order,day',
    (k) => `${[1, 2, 5, 6][k]},${['Mon', 'Mon', 'Wed', 'Wed'][k]}`,
    (k) => `${[3, 4, 7, 8][k]},${['Tue', 'Tue', 'Thu', 'Thu'][k]}`,
  ),
  'raw/warming.csv': sheet(
    'order',
    (k) => String([1, 2, 4, 5][k]),
    (k) => String([3, 6, 7, 8][k]),
  ),
  'raw/strata.csv': sheet(
    'thin,even,few,speed (m/s)',
    (k) => `${k === 0 ? 'p' : 'q'},${k < 2 ? 'p' : 'q'},${k < 3 ? 'yes' : 'no'},${1.2 + 0.01 * k}`,
    (k) => `${k === 0 ? 'p' : 'q'},${k < 2 ? 'p' : 'q'},${k < 3 ? 'yes' : 'no'},${1.205 + 0.01 * k}`,
  ),
  'raw/sensors.csv': sheet(
    'sensor',
    () => 'ACC-11',
    () => 'ACC-12',
  ),
  'raw/fitted-once.csv': sheet(
    'refit',
    () => '1',
    () => '1',
  ),
  'raw/refits.csv': sheet(
    'refit',
    (k) => (k < 2 ? '1' : '2'),
    (k) => (k < 2 ? '1' : '2'),
  ),
  'raw/paces.csv': sheet(
    'speed (paces)',
    () => '2',
    () => '2',
  ),
};
