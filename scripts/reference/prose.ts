import { cell, page } from './markdown.ts';

/** What the forms do not say: how a notebook is read, and what holds for all verbs. */

export const introduction = page(
  'A notebook cell holds statements of a small language that carries units and has no hidden state: a name is bound once in a notebook, every value is immutable, and a result depends on the text and on the raw files alone, never on the order in which cells were run. Nothing is ever written to a raw file.',
  'This page is made from the definitions that the checker, completion and the hovers read, so it says what they do. Every example is run against the sample recordings when the project is tested.',
);

export const statements = page(
  'One statement a line; `#` begins a comment. A statement is a verb with its operands and options, or an expression; `name =` in front binds its value. A pipe hands a value on as the first operand of the next verb, and a statement goes on to the next line when that line begins with `|`, or when this one ends with `|`, `,` or an open bracket.',
  cell(`# Four runs on bricks, the moving part alone
foam = load "raw/brick-foam-*.csv.gz"
  | channel z
  | trim 10..70 s
levels foam`),
  'A cell shows the value of its last statement, and of every earlier one that binds no name. Warnings are always shown. An error stops its statement and what depends on it; the rest of the notebook runs.',
  'A verb with its operands in brackets is a value, and a number in square brackets picks one run of a set, counted from 1:',
  cell(`foam = load "raw/brick-foam-*.csv.gz" channel z
band (spectrum foam) 10..50 Hz
levels foam[1]`),
  'A verb that is given a set of runs works on each of them. Names are made of letters, digits and `_`; case counts; verbs, functions and the words that introduce options can’t be names.',
);

export const quantities = page(
  'A number with its unit. Units are checked: lengths are not added to times, and where a verb wants a frequency no time will do. They combine with `*`, `/` and `^`, and `in` tells a quantity in another unit of the same dimension. A range is `10..50 Hz`, its ends known before anything runs.',
  cell(`k = series(40 N/mm, 100 N/mm)
k in lbf/in
natural_frequency(k, 70 kg)`),
  'Runs and results are told in another unit in the same way: `in` after a verb’s operands asks for its result in that unit, a density in its square, a comparison and a chart with all that is in them. It converts and never reinterprets: `unit` of `load` is what says in which unit a file’s numbers are. Sets in g and in mg compare as they are, in the unit of the baseline. What measures something else is refused: a velocity is made by `integrate` first.',
  cell(`foam = load "raw/brick-foam-*.csv.gz" channel z in m/s^2
levels foam in mm/s^2
(spectrum foam) in g`),
  'A quantity may carry its standard uncertainty: `160 ± 5 N/mm` (one unit for both), `160 N/mm ± 3 %` (a percentage of it), `12.3 +/- 0.2 Hz`; of a figure in percent the uncertainty is in points, `15 ± 2 %`. Where limits are all that is known (a data sheet’s tolerance, a thermometer’s resolution), `160 ± 5 N/mm rectangular` has ± 5 N/mm for the half-width, and a standard uncertainty of it over √3; `triangular`, where the middle is the likelier, over √6 (4.3.7, 4.3.9). `dof 4` after it states its degrees of freedom. Each `±` is an input of its own, and arithmetic passes uncertainties on to the first order (JCGM 100:2008, 5.1.2): what shares a name shares its input, so that `k - k` is 0 ± 0. `correlated` states correlations by hand (5.2.2). `coverage 95 %` after an expression tells the expanded uncertainty, with k from Student’s t at the effective degrees of freedom (G.4). Figures read off results bring theirs: a change its standard error, a level of runs with a `calibration` that of the sensor, which falls out of ratios. What takes a quantity as a setting takes its value.',
  cell(`k = 160 ± 5 N/mm
f = natural_frequency(k, 45 kg ± 2 %)
f coverage 95 %`),
  '`%` is a plain number (15 % is 0.15). A level in dB is a logarithm: levels add to levels, and never mix with anything else. A change in percent is always one of amplitude (r.m.s. or peak), never of power.',
);

export const channels = page(
  'A column that is recognisably an axis of acceleration is called `x`, `y` or `z`, whatever its header spells; any other numeric column keeps its header without the unit. `channel` takes that name, or the header in quotes. A file without a header whose columns are three beside an optional time or counter is x, y, z; otherwise they are `column1`, `column2` and so on. The unit comes from the option `unit`, else from the header, else from the length of the mean vector, which is 1 g for a logger at rest; `load` says which, and where nothing settles it that is an error which names the option.',
  'The rate is that of the unbroken stretches between gaps, from the first and the last stamp of each. A recording whose steps scatter by more than 5 % is resampled to a uniform rate with a warning; beyond 25 % it is refused until `resample` is asked for by hand. No segment of a spectrum crosses a gap.',
);

export const spectra = page(
  'Spectra are one-sided, by Welch’s method: periodic windows, the mean of each segment removed. A segment has exactly round(length × rate) samples, so bins are exactly rate / samples apart: no silent padding.',
  'The r.m.s. of a band integrates the density over the band as a piecewise constant function: a bin counts by the part of it that lies inside. The bins at zero and at half the rate keep their whole mean square in the half that exists. So neighbouring bands add up exactly, and the whole range adds up to the mean square.',
  'A comparison of A with B tells B/A − 1 of the geometric means over runs, in percent and in dB (20 log10(B/A)). The run is the unit of evidence: a long run is still one run.',
);
