import type { RecordingFacts } from '../../analysis/messages/recordings.ts';
import { page, type MessagePage } from '../../result/pages.ts';
import { after } from './ground.ts';

/** Codes without a page: `runs.missing` is told as a part of `runs.excluded`, and a clock that stands still is refused as it is read. */
type WithoutPage = 'runs.missing' | 'resample.empty';

/** A code that the checker of the text has too, and its page with it. */
type OfTheText = 'channel.unknown';

const all = 'all = load "raw/brick-foam-1.csv.gz"';

/** Of recordings and their conditioning. Files that are not among the samples are named for what is wrong with them. */
export const recordingPages: Readonly<Record<Exclude<keyof RecordingFacts, WithoutPage | OfTheText>, MessagePage>> = {
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
