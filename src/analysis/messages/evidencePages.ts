import { page, type MessagePages } from '../../result/pages.ts';
import type { EvidenceFacts } from './evidence.ts';

const side = (pad: string, rest = '| channel z | trim 10..70 s'): string =>
  `${pad} = load "raw/brick-${pad}-*.csv.gz" ${rest}`;
const bySheet = (pad: string, sheet: string, where = ''): string =>
  `${pad} = load sheet "raw/${sheet}.csv" where condition ${pad}${where} | channel z | trim 10..70 s`;

/** After both pads were loaded. */
const after = (...lines: readonly string[]): string => [side('foam'), side('gel'), ...lines].join('\n');
/** The same by a run sheet. */
const ofSheet = (sheet: string, line: string): string =>
  [bySheet('foam', sheet), bySheet('gel', sheet), line].join('\n');
const bySensor = (pad: string): string =>
  `${pad} = load sheet "raw/sensors.csv" where condition ${pad} calibration 2 % | channel z | trim 10..70 s`;
const ofBricks = (line: string): string =>
  [bySheet('foam', 'runs', ', surface brick'), bySheet('gel', 'runs', ', surface brick'), line].join('\n');

/** Both sides from files of their own. */
const sheetOf = (name: string, [a, b]: readonly [string, string]): string =>
  [`foam = load "raw/${name}/${a}-*.csv"`, `gel = load "raw/${name}/${b}-*.csv"`].join('\n');

const comparison = 'compare foam with gel over 10..50 Hz';
const responses = [
  'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s | transfer from x to z',
  'gel = load "raw/brick-gel-*.csv.gz" | trim 10..70 s | transfer from x to z',
].join('\n');
const ofAxes = (line: string): string =>
  [side('foam', '| trim 10..70 s'), side('gel', '| trim 10..70 s'), line].join('\n');
const single = (pad: string): string => side(pad).replace('*', '1');

/**
 * A page for every message about comparisons and claims. The sheets `other-day`, `days`, `warming`, `strata`, `sensors` and `paces` list
 * the sample's recordings with other conditions, orders and columns.
 */
export const evidencePages: MessagePages<EvidenceFacts> = {
  'compare.kinds': page(
    'A response against a signal',
    'A response is a ratio of two channels and can’t be held against a level of one.',
    [responses, 'z = load "raw/tile-gel-*.csv.gz" | channel z', 'compare foam with z over 10..50 Hz'].join('\n'),
    [responses, 'compare foam with gel over 10..50 Hz'].join('\n'),
  ),
  'compare.spectra': page(
    'Samples of what is there as spectra alone',
    'A spectrum can be integrated without its samples, a percentile or the spectrum of another run can’t.',
    after('f = spectrum foam as velocity', 'g1 = spectrum gel as velocity', 'compare f with g1 metric p99'),
    after('f = integrate foam to velocity', 'g1 = integrate gel to velocity', 'compare f with g1 metric p99'),
  ),
  'channel.mixed': page(
    'Two sides of different channels',
    'What differs between two axes says nothing about what differs between two conditions.',
    [side('foam', '| channel x'), side('gel', '| channel z'), comparison].join('\n'),
    after(comparison),
  ),
  'compare.weightings': page(
    'One side is weighted and the other is not',
    'A frequency weighting takes away what people feel little, so that a weighted level lies below an unweighted one whatever was changed.',
    after('w = weight foam wk', 'compare w with gel over 10..50 Hz'),
    after('w = weight foam wk', 'v = weight gel wk', 'compare w with v over 10..50 Hz'),
  ),
  'channel.many': page(
    'A side of several channels',
    'A comparison is of one channel of each run.',
    [side('foam', '| trim 10..70 s'), side('gel'), comparison].join('\n'),
    after(comparison),
  ),
  'compare.same': page(
    'A run on both sides',
    'The same recording on both sides makes them alike by itself.',
    after('compare foam with foam over 10..50 Hz'),
    after(comparison),
  ),
  'compare.including': page(
    'No excluded run to take in',
    'Only a run sheet excludes runs, and only those that went through every step can be taken in.',
    after(`${comparison} including excluded`),
    after(comparison),
  ),
  'compare.zero': page(
    'A band without vibration',
    'A ratio to a level of zero does not exist.',
    ['a = load "raw/silent-*.csv" unit g', 'b = load "raw/line-*.csv" unit g', 'compare a with b over 5..15 Hz'].join(
      '\n',
    ),
    after(comparison),
  ),
  'metric.transfer': page(
    'A metric of a response',
    'Responses are compared by their transmissibility in a band, and have no other level.',
    [responses, 'compare foam with gel over 10..50 Hz metric vdv'].join('\n'),
    [responses, 'compare foam with gel over 10..50 Hz'].join('\n'),
  ),
  'metric.band': page(
    'A band of a level that has none',
    'Dose values and percentiles are of the whole signal; a filter before the comparison limits them to a band.',
    after(`${comparison} metric vdv`),
    after('compare foam with gel metric vdv'),
  ),
  'metric.line': page(
    'A line without its order or column',
    'A line that goes with the speed lies at another frequency in each run: the order and the column of the run sheet say where.',
    ofSheet('strata', 'compare foam with gel metric line 10'),
    ofSheet('strata', 'compare foam with gel metric line 10 x speed'),
  ),
  'metric.line-speed': page(
    'A line without a speed',
    'Orders go with a turning rate in Hz or rpm, cycles per metre of way with a speed in m/s; the header of the column names the unit.',
    ofSheet('paces', 'compare foam with gel metric line 10 x speed'),
    ofSheet('strata', 'compare foam with gel metric line 10 x speed'),
  ),
  'compare.line-faint': page(
    'A line that does not stand out',
    'The level is of a narrow band about the line. Where as much stands beside it, noise is compared with noise: a band that holds all of it is the better measure.',
    ofSheet('strata', 'compare foam with gel metric line 37 x speed'),
    ofSheet('strata', 'compare foam with gel over 35..60 Hz'),
  ),
  'metric.resultant': page(
    'A dose value of a resultant',
    'ISO 2631-1:1997, 6.3.2 defines the vibration dose value of each axis, and none of several together.',
    [side('foam', '| resultant'), side('gel', '| resultant'), 'compare foam with gel metric vdv'].join('\n'),
    after('compare foam with gel metric vdv'),
  ),
  'metric.unit': page(
    'A dose value of what is no acceleration',
    'The vibration dose value is defined of acceleration (ISO 2631-1:1997, 6.3.2).',
    after('f = integrate foam to velocity', 'g1 = integrate gel to velocity', 'compare f with g1 metric vdv'),
    after('compare foam with gel metric vdv'),
  ),
  'floor.channel': page(
    'A logger at rest without the channel',
    'The noise of a channel is known only from the same channel at rest.',
    after('rest = load "raw/still.csv" | channel x', `${comparison} above rest`),
    after('rest = load "raw/still.csv"', `${comparison} above rest`),
  ),
  'floor.unit': page(
    'A logger at rest in another unit',
    'The noise is held against the runs in one unit.',
    after('rest = integrate (load "raw/still.csv") to velocity', `${comparison} above rest`),
    after('rest = load "raw/still.csv"', `${comparison} above rest`),
  ),
  'band.missing': page(
    'Parts of an octave without a range',
    'The range says which of the bands are compared.',
    after('compare foam with gel over third-octave'),
    after('compare foam with gel over third-octave 10..100 Hz'),
  ),
  'compare.axis': page(
    'An axis that a run does not have',
    'Every run of every side is compared on each of the axes.',
    ofAxes('compare foam with gel axes x, w over 10..50 Hz'),
    ofAxes('compare foam with gel axes x, z over 10..50 Hz'),
  ),
  'compare.axes': page(
    'Axes of a response',
    'A response is from one channel to another, and is compared as it is.',
    [responses, 'compare foam with gel axes x, z over 10..50 Hz'].join('\n'),
    [responses, 'compare foam with gel over 10..50 Hz'].join('\n'),
  ),
  'compare.adjusted': page(
    'A change by a stated power of a covariate',
    'The result hangs on the power, which the author states, and is shown for others beside it.',
    ofBricks('compare foam with gel over 10..50 Hz adjust speed exponent 1.2'),
    ofBricks('compare foam with gel over 10..50 Hz'),
  ),
  'within.empty': page(
    'A run of no stratum',
    'Every run belongs to a stratum, by a word in that column of the run sheet.',
    ofSheet('runs', 'compare foam with gel within flow over 10..50 Hz'),
    ofSheet('runs', 'compare foam with gel within surface over 10..50 Hz'),
  ),
  'within.one': page(
    'A column with one word',
    'Strata are told apart by the words of a column.',
    ofBricks('compare foam with gel within surface over 10..50 Hz'),
    ofSheet('runs', 'compare foam with gel within surface over 10..50 Hz'),
  ),
  'within.missing': page(
    'A stratum without one of the conditions',
    'The change over all strata is the mean of theirs, and each needs runs of every condition.',
    [
      bySheet('foam', 'runs'),
      bySheet('gel', 'runs', ', surface brick'),
      'compare foam with gel within surface over 10..50 Hz',
    ].join('\n'),
    ofSheet('runs', 'compare foam with gel within surface over 10..50 Hz'),
  ),
  'compare.few-in-cell': page(
    'A stratum with a single run of a side',
    'With two runs of each in every stratum the change over all can be told, with three that within each.',
    ofSheet('strata', 'compare foam with gel within thin over 10..50 Hz'),
    ofSheet('strata', 'compare foam with gel within even over 10..50 Hz'),
  ),
  'adjust.unplanned': page(
    'A slope that no plan names',
    'A slope that is fitted because it helps makes intervals too narrow; it is chosen before the data are seen, or its power is stated.',
    ofBricks('compare foam with gel over 10..50 Hz adjust speed'),
    ofBricks('compare foam with gel over 10..50 Hz adjust speed exponent 1'),
  ),
  'adjust.apart': page(
    'A covariate that no two sides share',
    'Where one side was always faster, the part of the speed and the change are one and the same in the data.',
    ofSheet(
      'other-day',
      'p = plan "Less?" channel z, primary 10..50 Hz repeats 4 adjust speed\ncompare foam with gel plan p',
    ),
    ofSheet('other-day', `${comparison} adjust speed exponent 1`),
  ),
  'adjust.unit': page(
    'A covariate in units that are not known',
    'Figures of several run sheets are brought to one unit, and that has to be one that Washboard knows.',
    [bySheet('foam', 'runs', ', surface brick'), bySheet('gel', 'paces'), `${comparison} adjust speed exponent 1`].join(
      '\n',
    ),
    ofBricks(`${comparison} adjust speed exponent 1`),
  ),
  'adjust.figure': page(
    'A run without the covariate',
    'Levels can be brought to one value of a covariate only where every run has a figure of it above 0.',
    ofBricks(`${comparison} adjust humidity exponent 1`),
    ofBricks(`${comparison} adjust speed exponent 1`),
  ),
  'compare.few-for-slope': page(
    'Too few runs for a slope',
    'A slope takes a part of what the runs tell, and with three runs of each little is left.',
    [
      ...['foam', 'gel'].map((pad) => bySheet(pad, 'strata', ', few yes')),
      'p = plan "Less?" channel z, primary 10..50 Hz repeats 3 adjust speed',
      'compare foam with gel plan p',
    ].join('\n'),
    ofSheet(
      'strata',
      'p = plan "Less?" channel z, primary 10..50 Hz repeats 4 adjust speed\ncompare foam with gel plan p',
    ),
  ),
  'claim.which': page(
    'A claim about one of several conditions',
    'Of several conditions or axes a claim names one; strata are meant together unless one is named.',
    ofAxes('c = compare foam with gel axes x, z over 10..50 Hz\nclaim c reduction 10 %'),
    ofAxes('c = compare foam with gel axes x, z over 10..50 Hz\nclaim c reduction 10 % axis z'),
  ),
  'claim.band': page(
    'A claim about a band that is not plain',
    'Of several bands the primary one is meant unless one is named; of a band that was not compared nothing is shown.',
    after('c = compare foam with gel over 10..50 Hz, 50..100 Hz', 'claim c reduction 10 %'),
    after('c = compare foam with gel over 10..50 Hz, 50..100 Hz', 'claim c reduction 10 % over 10..50 Hz'),
  ),
  'compare.using': page(
    'A window that comes too late',
    'A spectrum was cut into segments when it was made.',
    after('compare (spectrum foam) with (spectrum gel) over 10..50 Hz using window hann 4 s'),
    after(`${comparison} using window hann 4 s`),
  ),
  'compare.durations': page(
    'Sides of different lengths',
    'Where the road or the machine changes with time, longer runs hold other parts of it.',
    [side('foam'), side('gel', '| channel z | trim 10..40 s'), comparison].join('\n'),
    after(comparison),
  ),
  'compare.rates': page(
    'Sides of different rates',
    'Loggers filter near half their rate, and that is not the same for both.',
    after('slow = resample gel 200 Hz', 'compare foam with slow over 10..50 Hz'),
    after(comparison),
  ),
  'compare.sensors': page(
    'Sides recorded with different sensors',
    'Sensors of one make read some percent apart, which no number of runs averages out. With the calibration stated, it is in the interval.',
    ofSheet('sensors', comparison),
    [bySensor('foam'), bySensor('gel'), comparison].join('\n'),
  ),
  'compare.windows': page(
    'Sides with different windows',
    'Windows resolve lines and edges of bands differently.',
    after('compare (spectrum foam using window hann 4 s) with (spectrum gel) over 10..50 Hz'),
    after('compare (spectrum foam) with (spectrum gel) over 10..50 Hz'),
  ),
  'compare.mass': page(
    'Another mass on the sides',
    'More than 2 % of difference in mass may itself be the change.',
    ofSheet('other-day', comparison),
    ofBricks(comparison),
  ),
  'compare.load': page(
    'Another load on the sides',
    'More than 2 % of difference in load may itself be the change.',
    ofSheet('other-day', comparison),
    ofBricks(comparison),
  ),
  'compare.pressure': page(
    'Other pressures on the sides',
    'More than 2 % of difference in tyre pressure may itself be the change.',
    ofSheet('other-day', comparison),
    ofBricks(comparison),
  ),
  'compare.speeds': page(
    'Other speeds on the sides',
    'Vibration grows with speed, so more than 2 % of difference may be the change; beyond 10 % no verdict is given.',
    ofSheet('other-day', comparison),
    ofBricks(comparison),
  ),
  'compare.apart': page(
    'What the run sheet says tells the sides apart',
    'What was always other on one side and the change are one and the same in the data: a figure, or a word of where, by whom and how the runs were made. A column that names what is compared in other words is left alone; one in a unit of speed or of turning is held to the rule for speeds instead.',
    ofSheet('other-day', comparison),
    ofBricks(comparison),
  ),
  'compare.floor': page(
    'A band near the logger’s noise',
    'The mean square of a band should be ten times that of the logger at rest; below twice no verdict is given.',
    after('rest = load "raw/tile-foam-*.csv.gz" | channel z', `${comparison} above rest`),
    after('rest = load "raw/still.csv"', `${comparison} above rest`),
  ),
  'compare.rounding': page(
    'Coarse steps that do too little to count',
    'Rounding adds noise that is spread over all frequencies, and the band holds little of it.',
    [sheetOf('coarse', ['coarse', 'coarser']), comparison].join('\n'),
    after(comparison),
  ),
  'compare.clipped': page(
    'Clipping that takes too little to count',
    'What was cut off can change the band by no more than its own r.m.s., which is small beside the interval.',
    [sheetOf('clipped', ['clipped', 'sound']), comparison].join('\n'),
    after(comparison),
  ),
  'compare.small-share': page(
    'A band of little vibration',
    'A change in a band that holds less than 1 % of the mean square leaves the whole as it was.',
    after('compare foam with gel over 120..125 Hz'),
    after(comparison),
  ),
  'runs.included': page(
    'Excluded runs were taken in',
    'The result with the runs that the sheet leaves out shows what leaving them out does.',
    ofBricks(`${comparison} including excluded`).replaceAll('10..70 s', '10..45 s'),
    ofBricks(comparison).replaceAll('10..70 s', '10..45 s'),
  ),
  'compare.one-run-each': page(
    'One run of each',
    'Two runs of one condition differ, too: with one of each nothing tells that difference from the change.',
    [single('foam'), single('gel'), comparison].join('\n'),
    after(comparison),
  ),
  'compare.few-runs': page(
    'Too few runs',
    'With fewer than three runs a side the scatter is too little known for an interval.',
    [side('foam').replace('*.csv.gz"', '1.csv.gz", "raw/brick-foam-2.csv.gz"'), side('gel'), comparison].join('\n'),
    after(comparison),
  ),
  'compare.method-not-possible': page(
    'A method that these runs do not allow',
    'Pairs need one run of each side, and a trend needs the order in which all were made.',
    after(`${comparison} trend`),
    ofBricks(`${comparison} trend`),
  ),
  'compare.order-leans': page(
    'An order that mixes the runs badly',
    'Where the runs of one side came later on average, taking the drift out costs precision: the interval is wider.',
    ofSheet('warming', comparison),
    ofBricks(comparison),
  ),
  'compare.order-apart': page(
    'All of one side before the other',
    'Whatever drifted over the day looks like the change, so that no verdict is given.',
    ofSheet('other-day', comparison),
    ofBricks(comparison),
  ),
  'compare.other-days': page(
    'The sides on different days',
    'Weather, temperature, tyres and hands differ from day to day, and look like the change, so that no verdict is given.',
    ofSheet('days', comparison),
    ofBricks(comparison),
  ),
  'compare.mixed': page(
    'A side of several set-ups',
    'Runs that differ in a column of the run sheet scatter by what it names, and the sides may hold unlike shares of it.',
    ofSheet('runs', comparison),
    ofBricks(comparison),
  ),
  'compare.fitted-once': page(
    'Parts that were fitted once',
    'Runs on one fitting scatter less than fittings do: torque, height and place are part of what a part does.',
    ofSheet('fitted-once', comparison),
    ofSheet('refits', comparison),
  ),
  'compare.pairs-not-neighbours': page(
    'Pairs that are no neighbours',
    'A pair takes out what both its runs share, and runs far apart in time share little.',
    ofSheet('other-day', `${comparison} paired`),
    ofBricks(`${comparison} paired`),
  ),
  'compare.no-scatter': page(
    'Runs that do not differ at all',
    'Real runs always scatter; the same file stands there more than once.',
    ['a = load "raw/copy-*.csv" unit g', 'b = load "raw/twin-*.csv" unit g', 'compare a with b over 5..15 Hz'].join(
      '\n',
    ),
    after(comparison),
  ),
};
