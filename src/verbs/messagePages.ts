import type { RecordingFacts } from '../analysis/messages/recordings.ts';
import { page, type MessagePage, type MessagePages } from '../result/pages.ts';
import type { CallFacts, ExpressionFacts, WordFacts } from './messages.ts';

/** A line after the recording that the examples work on. */
const after = (line: string, ground = 'foam = load "raw/brick-foam-1.csv.gz" channel z'): string =>
  `${ground}\n${line}`;

/** Codes that the checker of the text has too, and their pages with it. */
type OfTheText = 'operand.missing' | 'unit.dimension' | 'arithmetic.zero' | 'arithmetic.finite';

/** Of a call's arguments taken together, and of quantities that are known only when a cell runs. */
export const callPages: Readonly<Record<Exclude<keyof (CallFacts & ExpressionFacts), OfTheText>, MessagePage>> = {
  'option.value': page(
    'A decimal mark that is none',
    'Numbers are written with a point or a comma.',
    'load "raw/brick-foam-1.csv.gz" decimal ";"',
    'load "raw/brick-foam-1.csv.gz" decimal "."',
  ),
  'run.long': page(
    'A recording that is too large for memory',
    'Such a recording is read part by part, which is enough for levels, spectra, comparisons and plots. What needs all samples at once, as filters and weightings do, works on a stretch of it.',
    'week = load "raw/week.csv"\nhighpass week 2 Hz',
    'week = load "raw/week.csv"\nhighpass (trim week 10..20 s) 2 Hz',
  ),
  'trim.twice': page(
    'A stretch that is said twice',
    'A range says all; of from, to and length two do.',
    after('trim foam 10..70 s from 10 s'),
    after('trim foam from 10 s length 60 s'),
  ),
  'range.backward': page(
    'A stretch that ends before it begins',
    'The start comes first.',
    after('trim foam from 70 s to 10 s'),
    after('trim foam from 10 s to 70 s'),
  ),
  'sheet.missing': page(
    'A run sheet is wanted',
    '`where` and `including` speak of the rows of a run sheet.',
    'load "raw/brick-foam-1.csv.gz" including excluded',
    'load "raw/brick-foam-1.csv.gz" sheet "raw/runs.csv" including excluded',
  ),
  'coverage.exact': page(
    'A coverage of an exact quantity',
    'Only a quantity whose inputs have an uncertainty has an expanded one.',
    'k = 160 N/mm\nk coverage 95 %',
    'k = 160 ± 5 N/mm\nk coverage 95 %',
  ),
  'correlated.words': page(
    'A correlation that can’t be',
    '`correlated` takes a quantity and pairs of a coefficient and a quantity, all with uncertainties.',
    'v = 5 ± 0.1 mm\ncorrelated(7 ± 0.2 mm, 1.4, v)',
    'v = 5 ± 0.1 mm\ncorrelated(7 ± 0.2 mm, 0.4, v)',
  ),
  'correlation.exact': page(
    'A correlation of exact quantities',
    'What has no uncertainty is correlated with nothing.',
    'v = 5 mm\ncorrelation(v, 2 * v)',
    'v = 5 ± 0.1 mm\ncorrelation(v, 2 * v)',
  ),
  'scale.words': page(
    'A reference without its scale',
    '`re` says what `scale dB` is over.',
    'foam = load "raw/brick-foam-1.csv.gz" channel z\ntable (levels foam) re 1e-6 m/s^2',
    'foam = load "raw/brick-foam-1.csv.gz" channel z\ntable (levels foam) scale dB re 1e-6 m/s^2',
  ),
  'scale.reference': page(
    'A reference of something else',
    'The level of an acceleration is over an acceleration, that of a velocity over a velocity.',
    'foam = load "raw/brick-foam-1.csv.gz" channel z\ntable (levels foam) scale dB re 1e-9 m/s',
    'foam = load "raw/brick-foam-1.csv.gz" channel z\ntable (levels foam) scale dB re iso1683',
  ),
  'plot.mixed': page(
    'Values that share no axis',
    'A chart is over time or over frequency.',
    after('plot foam, (spectrum foam)'),
    after('plot (spectrum foam)'),
  ),
  'unit.level': page(
    'A level with another quantity',
    'A level in dB is a logarithm, and adds to levels alone.',
    after('L = levels foam\nL.rms * 3 dB'),
    after('L = levels foam\ndecibels(L.crest_factor) + 3 dB'),
  ),
  'unit.exponent': page(
    'An exponent with a unit',
    'An exponent is a plain number.',
    after('L = levels foam\n2 ^ L.rms'),
    after('L = levels foam\n2 ^ L.crest_factor'),
  ),
  'function.range': page(
    'A value that a function does not take',
    'Roots are of values of at least 0, logarithms and springs of values above 0.',
    'sqrt(1 - 2)',
    'sqrt(2 - 1)',
  ),
};

const pads = ['foam', 'gel']
  .map((pad) => `${pad} = load "raw/brick-${pad}-*.csv.gz" | channel z | trim 10..70 s`)
  .join('\n');
const bySheet = ['foam', 'gel']
  .map((pad) => `${pad} = load sheet "raw/runs.csv" where condition ${pad}, surface brick | channel z | trim 12..72 s`)
  .join('\n');
const ofPads = (...lines: readonly string[]): string => after(lines.join('\n'), pads);

/** Of words that do not fit together. That of `option.missing` stands among the messages of the text. */
export const wordPages: MessagePages<Omit<WordFacts, 'option.missing'>> = {
  'claim.words': page(
    'A claim that does not say what is claimed',
    'A claim has a direction, and a figure with its unit where `at-most`, `about` or `no-worse` needs one.',
    ofPads('c = compare foam with gel over 10..50 Hz', 'claim c reduction 15'),
    ofPads('c = compare foam with gel over 10..50 Hz', 'claim c reduction 15 %'),
  ),
  'compare.methods': page(
    'Two methods at once',
    'Pairs and a trend each take another kind of wandering out of the same runs.',
    ofPads('compare foam with gel over 10..50 Hz paired trend'),
    ofPads('compare foam with gel over 10..50 Hz paired'),
  ),
  'order.seed': page(
    'A seed without chance',
    'Only `blocks` tosses a coin; the usual order is mirrored and the same each time.',
    'order 4 seed 7',
    'order 4 blocks seed 7',
  ),
  'order.conditions': page(
    'A single condition, or one twice',
    'An order mixes the runs of two conditions or more.',
    'order 4 conditions foam, foam',
    'order 4 conditions foam, gel',
  ),
  'adjust.words': page(
    'An adjustment without its figure',
    'A power is a plain number after `exponent`, and its standard uncertainty one after `uncertainty`.',
    ofPads('compare foam with gel over 10..50 Hz adjust speed uncertainty 0.2'),
    after('compare foam with gel over 10..50 Hz adjust speed exponent 1.5 uncertainty 0.2', bySheet),
  ),
  'repeats.both': page(
    'Two aims at once',
    'To show a difference and to show that there is none take different numbers of runs.',
    'repeats detect 5 % equivalent 5 % spread 4 %',
    'repeats detect 5 % spread 4 %',
  ),
};

/** Codes without a page: `runs.missing` is told as a part of `runs.excluded`, and a clock that stands still is refused as it is read. */
type WithoutPage = 'runs.missing' | 'resample.empty';

/** A code that the checker of the text has too, and its page with it. */
type RecordingsOfTheText = 'channel.unknown';

const all = 'all = load "raw/brick-foam-1.csv.gz"';

/** Of recordings and their conditioning. Files that are not among the samples are named for what is wrong with them. */
export const recordingPages: Readonly<
  Record<Exclude<keyof RecordingFacts, WithoutPage | RecordingsOfTheText>, MessagePage>
> = {
  'channel.few': page(
    'One channel has no resultant',
    'A resultant is of two or three axes.',
    after('resultant foam'),
    after('resultant all', all),
  ),
  'resultant.axes': page(
    'Runs with different axes',
    'A sum of other axes is another quantity; take the same axes of all runs.',
    'r = load "raw/some-axes-*.csv"\nresultant r',
    'r = load "raw/some-axes-*.csv" channel x, y\nresultant r',
  ),
  'unit.mixed': page(
    'Channels in different units',
    'Only axes of one unit can be summed.',
    'r = load "raw/two-units.csv" channel x, v\nresultant r',
    'r = load "raw/two-units.csv" channel x, y\nresultant r',
  ),
  'unit.unsettled': page(
    'Nothing settles the unit',
    'The header names none, and the mean vector is not 1 g long.',
    'load "raw/no-unit.csv"',
    'load "raw/no-unit.csv" unit g',
  ),
  'trim.outside': page(
    'A stretch reaches outside a run',
    'Times are counted from the first sample of each run as it is given.',
    after('trim foam 10..100 s'),
    after('trim foam 10..70 s'),
  ),
  'load.long': page(
    'A calibration of a recording that is too large for memory',
    'Such a recording is read part by part, and a calibration is applied to the samples in memory.',
    'turns = calibrate (load "still/six-*.csv")\nload "raw/week.csv" calibration turns',
    'load "raw/week.csv" calibration 2 %',
  ),
  'trim.empty': page(
    'A stretch holds no sample',
    'It lies between two samples.',
    after('trim foam 2.001..2.002 s'),
    after('trim foam 2.001..3 s'),
  ),
  'runs.excluded': page(
    'Runs that the run sheet leaves out',
    'They are listed with every result, and can be taken in to see what they change.',
    'load sheet "raw/runs.csv" where condition gel, surface brick',
    'load sheet "raw/runs.csv" where condition foam, surface brick',
  ),
  'sheet.many': page('Several run sheets', 'A run sheet is one file.', 'sheet "raw/*.csv"', 'sheet "raw/runs.csv"'),
  'sheet.row': page(
    'A row of the run sheet can’t be understood',
    'A column names each recording, each stands once, `excluded` is yes or no and `order` a number.',
    'sheet "raw/perhaps.csv"',
    'sheet "raw/runs.csv"',
  ),
  'sheet.why': page(
    'Excluded without a reason',
    'Whoever reads the result must be able to judge the reason; it stands under `why`.',
    'sheet "raw/no-reason.csv"',
    'sheet "raw/runs.csv"',
  ),
  'sheet.where': page(
    'A choice among the rows that finds none',
    '`where` takes pairs of a column and what stands in it.',
    'load sheet "raw/runs.csv" where condition gal',
    'load sheet "raw/runs.csv" where condition gel, surface brick',
  ),
  'sheet.unmade': page(
    'A row without a recording',
    'The run was planned and not made yet, or its file was not written down.',
    'load sheet "raw/not-made.csv"',
    'load sheet "raw/runs.csv" where surface brick',
  ),
  'sheet.unlisted': page(
    'A recording that the run sheet does not know',
    'It is loaded, and nothing is known of it.',
    'load "raw/brick-foam-1.csv.gz", "raw/still.csv" sheet "raw/runs.csv"',
    'load "raw/brick-foam-1.csv.gz" sheet "raw/runs.csv"',
  ),
  'sheet.none': page(
    'The run sheet leaves nothing to load',
    'All runs that were chosen are excluded, or none has a recording.',
    'load "raw/stopped-brick-gel.csv.gz" sheet "raw/runs.csv"',
    'load "raw/brick-gel-1.csv.gz" sheet "raw/runs.csv"',
  ),
  'rate.uneven': page(
    'Sampled too unevenly',
    'Spectra and filters need one rate; levels, running levels and plots over time take the samples as logged.',
    'r = load "raw/uneven.csv"\nhighpass r 2 Hz',
    'r = load "raw/uneven.csv" | resample 100 Hz\nhighpass r 2 Hz',
  ),
  'rate.evened': page(
    'Brought to a uniform rate',
    'The steps between samples vary by 5 to 25 % of their mean. What needs a uniform rate takes values from a cubic spline through the samples; levels don’t.',
    'r = load "raw/jittery.csv"\nspectrum r',
    'r = load "raw/jittery.csv" | resample 100 Hz\nspectrum r',
  ),
  'filter.corner': page(
    'A corner past half the rate',
    'A recording holds nothing above half its rate.',
    after('lowpass foam 200 Hz'),
    after('lowpass foam 100 Hz'),
  ),
  'filter.short': page(
    'A stretch too short to filter',
    'The filter continues each end by some samples of its own.',
    after('foam | trim 10 s..10.02 s | highpass 2 Hz'),
    after('foam | trim 10..70 s | highpass 2 Hz'),
  ),
  'stretch.left-out': page(
    'Stretches that a step leaves out',
    'A filter, a weighting and an integration work on each unbroken stretch by itself and begin anew after each loss. Where at least nine tenths of a run lie in stretches that are long enough, those that are not are left out.',
    'r = load "raw/interrupted.csv"\nhighpass r 2 Hz',
    'r = load "raw/interrupted.csv"\nhighpass r 8 Hz',
  ),
  'filter.unsettled': page(
    'Much of a stretch is settling',
    'A stretch should hold five periods of the lowest corner.',
    after('foam | trim 10..12 s | highpass 1 Hz'),
    after('foam | trim 10..70 s | highpass 1 Hz'),
  ),
  'resample.factor': page(
    'A rate far off that of the recording',
    'More than a thousand times either way is a slip of the unit.',
    after('resample foam 400 kHz'),
    after('resample foam 400 Hz'),
  ),
  'resample.large': page(
    'More samples than a machine holds',
    'So high a rate of so long a recording is most likely a slip of the unit.',
    'load "raw/long.csv" | resample 100 kHz',
    'load "raw/long.csv" | resample 50 Hz',
  ),
  'resample.up': page(
    'A higher rate adds nothing',
    'What was not sampled is not there.',
    after('resample foam 400 Hz'),
    after('resample foam 200 Hz'),
  ),
  'resample.uneven': page(
    'Uneven readings are partly interpolated',
    'Where readings stand far apart, what is faster is a guess.',
    'load "raw/uneven.csv" | resample 100 Hz',
    after('resample foam 200 Hz'),
  ),
  'integrate.low-cut': page(
    'The low cut is too high, or decides the result',
    'It lies below half the rate, and well below the lowest frequency of interest.',
    after('integrate foam to velocity above 200 Hz'),
    after('integrate foam to velocity above 2 Hz'),
  ),
  'integrate.unit': page(
    'Not an acceleration',
    'Velocity comes from acceleration; displacement from either.',
    after('foam | integrate to velocity above 2 Hz | integrate to velocity above 2 Hz'),
    after('foam | integrate to velocity above 2 Hz | integrate to displacement above 2 Hz'),
  ),
  'integrate.short': page(
    'A stretch too short for the low cut',
    'It should hold five periods of the low cut.',
    after('foam | trim 10..14 s | integrate to velocity above 1 Hz'),
    after('foam | trim 10..70 s | integrate to velocity above 1 Hz'),
  ),
  'integrate.edges': page(
    'A stretch of which an integration leaves nothing',
    'What lies before and after a stretch is not known, so that 1.2 periods of the low cut are left out at each end, twice that for displacement from acceleration.',
    after('foam | trim 10..12 s | integrate to velocity above 1 Hz'),
    after('foam | trim 10..12 s | integrate to velocity above 4 Hz'),
  ),
  'weight.count': page(
    'Another number of weightings than channels',
    'Give one for all channels, or one for each in their order.',
    after('weight all wd wk', all),
    after('weight all wd wd wk', all),
  ),
  'weight.twice': page(
    'Weighted already',
    'A second weighting of the same signal means nothing.',
    after('foam | weight wk | weight wk'),
    after('foam | weight wk'),
  ),
  'weight.broken': page(
    'Stretches too short to be weighted',
    'Where samples are lost again and again, a weighting begins anew after each loss. Of stretches that hold not one period of what it counts in full the level would be far too low.',
    after('foam | trim 10..10.1 s | weight wk'),
    after('foam | trim 10..70 s | weight wk'),
  ),
  'weight.unit': page(
    'Only an acceleration can be weighted',
    'The weightings of ISO 2631-1 are of acceleration.',
    after('foam | integrate to velocity above 2 Hz | weight wk'),
    after('foam | weight wk'),
  ),
  'weight.rate': page(
    'The rate is too low for a weighting',
    'What a weighting counts and the recording does not hold is missing in the level.',
    after('weight foam wh'),
    after('weight foam wk'),
  ),
  'weight.short': page(
    'A stretch is too short for a weighting',
    'It should hold four periods of the lowest frequency that counts.',
    after('foam | trim 10..15 s | weight wk'),
    after('foam | trim 10..70 s | weight wk'),
  ),
};
