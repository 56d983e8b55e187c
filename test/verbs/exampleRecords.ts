/** One change of band r.m.s. as a record has it, z, foam against gel. */
export function changeIn(
  result: string,
  {
    from = 10,
    to = 50,
    change = -12,
    error = 0.02,
    df = 5,
    low = change - 5 * (1 + change / 100),
    high = change + 5 * (1 + change / 100),
    primary = true,
    condition = 'gel',
    baseline = 'foam',
  }: Partial<Record<'from' | 'to' | 'change' | 'error' | 'df' | 'low' | 'high', number>> & {
    primary?: boolean;
    condition?: string;
    baseline?: string;
  } = {},
): Record<string, unknown> {
  const row = `${result}.rows[${from}..${to} Hz]`;
  return {
    [`${result}.unit`]: 'g',
    [`${result}.confidence`]: 0.95,
    [`${result}.metric`]: 'band r.m.s.',
    [`${result}.metric_code`]: 'rms',
    [`${result}.channel`]: 'z',
    [`${result}.baseline`]: baseline,
    [`${result}.a_runs[1]`]: 'other-foam-1',
    [`${result}.b_runs[1]`]: 'other-gel-1',
    [`${row}.baseline`]: baseline,
    [`${row}.condition`]: condition,
    [`${row}.stratum`]: 'all',
    [`${row}.axis`]: 'z',
    [`${row}.from_hz`]: from,
    [`${row}.to_hz`]: to,
    [`${row}.primary`]: primary,
    [`${row}.a`]: 0.3,
    [`${row}.b`]: Number((0.3 * (1 + change / 100)).toPrecision(6)),
    [`${row}.change_percent`]: change,
    [`${row}.change_db`]: Number((20 * Math.log10(1 + change / 100)).toPrecision(6)),
    [`${row}.low_percent`]: low,
    [`${row}.high_percent`]: high,
    [`${row}.outcome`]: high < 0 ? 'lower' : low > 0 ? 'higher' : 'not shown',
    [`${row}.family`]: 1,
    [`${row}.standard_error`]: error,
    [`${row}.degrees_of_freedom`]: df,
  };
}

/** A record's file. */
export const recordOf = (results: Record<string, unknown>, rest: Record<string, unknown> = {}): string =>
  JSON.stringify({
    record: 1,
    tool: 'washboard 0.1.0',
    notebook: 'spring.washboard.md',
    sources: [{ path: 'raw/other-foam-1.csv', bytes: 1000, sha256: 'ab'.repeat(32) }],
    results,
    ...rest,
  });

const spring = changeIn('C');

/** Records of other studies, and of what may be wrong with them, for the reference's examples. */
export const exampleRecords: Readonly<Record<string, string>> = {
  'spring/ride.record.json': recordOf({ ...spring, 'L.unit': 'g', 'L.rows[foam-1 z].rms': 0.31 }),
  'spring/same.record.json': recordOf(spring),
  'spring/vdv.record.json': recordOf({ ...spring, 'C.metric': 'vibration dose value', 'C.metric_code': 'vdv' }),
  'spring/rubber.record.json': recordOf(changeIn('C', { condition: 'rubber' })),
  'spring/two-bands.record.json': recordOf({ ...spring, ...changeIn('C', { from: 4, to: 10, primary: false }) }),
  'spring/other-band.record.json': recordOf(changeIn('C', { from: 5, to: 9 })),
  'spring/one-run.record.json': recordOf({
    ...spring,
    'C.rows[10..50 Hz].standard_error': undefined,
    'C.rows[10..50 Hz].degrees_of_freedom': undefined,
  }),
  'spring/cut.record.json': recordOf(spring).slice(0, 900),
  'spring/later.record.json': recordOf(spring, { record: 2 }),
  'spring/edited.record.json': recordOf({ ...spring, 'C.rows[10..50 Hz].change_percent': -30 }),
  'spring/empty.record.json': recordOf({}),
};
