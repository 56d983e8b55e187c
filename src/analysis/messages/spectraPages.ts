import { page, type MessagePages } from '../../result/pages.ts';
import type { SpectraFacts } from './spectra.ts';

const foam = 'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s';
const after = (line: string): string => `${foam} | channel z\n${line}`;
const ofAll = (line: string): string => `${foam}\n${line}`;
const points = (list: string, rest = ''): string => `profile ${list}${rest}`;
/** A recording of a machine that turns five times a second, with its tachometer. */
const ofTurns = (line: string, file = 'raw/turning.csv'): string => `r = load "${file}" channel z tacho pulse\n${line}`;
const limit = 'limit = profile 5 Hz 0.002 g^2/Hz, 100 Hz 0.0005 g^2/Hz';

/** A page for every message about levels, spectra and what is read off them. */
export const spectraPages: MessagePages<SpectraFacts> = {
  'levels.additional': page(
    'The weighted r.m.s. may say too little',
    'Of weighted acceleration with shocks in it, ISO 2631-1:1997, 6.2.1 and 6.3.3 ask to look at MTVV and VDV beside the r.m.s.',
    after('levels (weight foam wk)'),
    after('levels foam'),
  ),
  'levels.mtvv-short': page(
    'Stretches too short for the MTVV',
    'The MTVV is the largest r.m.s. over a whole second (ISO 2631-1:1997, 6.3.1), and no second reaches across lost samples.',
    'levels (load "raw/lossy.csv")',
    'levels (load "raw/interrupted.csv")',
  ),
  'running.short': page(
    'A span without a sample',
    'The span of a running r.m.s. is shorter than the time between two samples.',
    after('running foam over 1 ms'),
    after('running foam over 1 s'),
  ),
  'running.long': page(
    'A span longer than the recording',
    'No span reaches across a gap, so one unbroken stretch of each run has to hold it.',
    after('running foam over 100 s'),
    after('running foam over 1 s'),
  ),
  'running.few': page(
    'A span of few samples',
    'Over so few samples the running r.m.s. rises and falls with the wave itself.',
    after('running foam over 10 ms'),
    after('running foam over 1 s'),
  ),
  'running.thinned': page(
    'A running level of a very long recording',
    'A value a sample would be as large as the recording itself, which is too large for memory. The largest value is that of all.',
    'week = load "raw/week.csv"\nrunning week over 1 s',
    'week = load "raw/week.csv"\nrunning (trim week 0..20 s) over 1 s',
  ),
  'spectrum.few': page(
    'Few segments to average',
    'A spectrum of few segments is uncertain in every bin; a shorter window leaves more of them.',
    after('spectrum foam using window hann 25 s'),
    after('spectrum foam using window hann 2 s'),
  ),
  'spectrum.orders': page(
    'A spectrum without frequencies',
    'Its axis was divided by a speed, and what is asked for is in Hz.',
    after('band (orders (spectrum foam) by 1.2 m/s) 4..10 Hz'),
    after('band (spectrum foam) 4..10 Hz'),
  ),
  'window.long': page(
    'A segment that does not fit',
    'A segment is never padded: it has to fit in an unbroken stretch of every run, twice for a response, and to hold at least four samples.',
    after('spectrum foam using window hann 100 s'),
    after('spectrum foam using window hann 2 s'),
  ),
  'window.short-stretches': page(
    'Stretches too short for a segment',
    'No segment reaches across lost samples, so what stands between two losses closer together than a segment is in the levels and in no spectrum.',
    'r = load "raw/interrupted.csv"\nspectrum r using window hann 2 s',
    'r = load "raw/interrupted.csv"\nspectrum r using window hann 0.5 s',
  ),
  'band.outside': page(
    'A band past half the rate',
    'A recording holds no frequencies above half its rate.',
    after('band (spectrum foam) 10..500 Hz'),
    after('band (spectrum foam) 10..150 Hz'),
  ),
  'band.zero': page(
    'Bands of an octave from 0 Hz',
    'Each band is a fixed ratio wide, so none begins at 0 Hz.',
    after('band (spectrum foam) third-octave 0..100 Hz'),
    after('band (spectrum foam) third-octave 20..100 Hz'),
  ),
  'band.below-cut': page(
    'A band below the cut of an integration',
    'Below its low cut, or the corner of a high-pass that it went through, what was integrated means nothing.',
    after('band (spectrum (integrate foam to velocity above 5 Hz)) 2..10 Hz'),
    after('band (spectrum (integrate foam to velocity above 1 Hz)) 2..10 Hz'),
  ),
  'band.none': page(
    'A range without a whole band',
    'A band of an octave that reaches past an end of the range is left out, unless that end is the nominal frequency it is called by.',
    after('band (spectrum foam) octave 50..60 Hz'),
    after('band (spectrum foam) third-octave 50..63 Hz'),
  ),
  'band.narrow': page(
    'A band of few bins',
    'The level of a band of few bins rests on few figures, and a line at its edge is split.',
    after('band (spectrum foam) 10..11 Hz'),
    after('band (spectrum foam using window hann 8 s) 10..11 Hz'),
  ),
  'band.few-bins': page(
    'Bands of an octave that stay empty',
    'At low frequencies such bands are narrow, and a longer window is needed to resolve them.',
    after('band (spectrum foam) third-octave 2.5..100 Hz'),
    after('band (spectrum foam using window hann 8 s) third-octave 2.5..100 Hz'),
  ),
  'peaks.none': page(
    'No peak stands out',
    'A peak counts only where it lies above the confidence band of its surroundings.',
    after('peaks (spectrum foam using window hann 20 s) 120..121 Hz'),
    after('peaks (spectrum foam using window hann 4 s) 5..100 Hz'),
  ),
  'peaks.unresolved': page(
    'A resonance of few bins',
    'The bins are too wide for the resonance: they smooth its top away, so that its height reads low and its width wide. Resonances with little damping need a long window.',
    after('peaks (spectrum foam using window hann 4 s) 5..20 Hz'),
    after('peaks (spectrum foam using window hann 8 s) 5..20 Hz'),
  ),
  'peaks.blurred': page(
    'A peak that its neighbours reach into',
    'Between such a peak and the next the spectrum does not fall to half, or the end of the range comes first, so that the height of a line between two bins can’t be worked out.',
    after('peaks (spectrum foam using window hann 1 s) 2..150 Hz'),
    after('peaks (spectrum foam using window hann 8 s) 5..30 Hz count 1'),
  ),
  'orders.speed': page(
    'Orders without a speed',
    'Frequencies become orders when they are divided by a speed or a turning rate.',
    after('orders (spectrum foam)'),
    after('orders (spectrum foam) by 1.2 m/s'),
  ),
  'orders.ways': page(
    'Orders by two speeds at once',
    'The axis is divided by one thing: a stated speed, that of each run by the sheet, or the turns that a channel counts.',
    ofTurns('orders r by 5 Hz tacho pulse'),
    ofTurns('orders r tacho pulse'),
  ),
  'orders.column': page(
    'Orders by a column without figures',
    'A speed in m/s gives cycles per metre, a rate in Hz or rpm orders: the header of the column names the unit.',
    'foam = load sheet "raw/paces.csv" where condition foam | channel z\norders foam column speed',
    'foam = load sheet "raw/strata.csv" where condition foam | channel z\norders foam column speed',
  ),
  'orders.channel': page(
    'A tachometer that was not loaded',
    'Without `channel` only the axes of acceleration are taken where there are any; the tachometer is named along with them.',
    'r = load "raw/turning.csv" channel z\norders r tacho pulse',
    ofTurns('orders r tacho pulse'),
  ),
  'orders.alone': page(
    'A tachometer alone',
    'The tachometer says how the others are cut up, and has no orders itself.',
    'r = load "raw/turning.csv" channel pulse tacho pulse\norders r tacho pulse',
    ofTurns('orders r tacho pulse'),
  ),
  'orders.still': page(
    'A tachometer without pulses',
    'A pulse is a rise through the middle of the signal’s range; five of them are needed.',
    ofTurns('orders (trim r 0..0.5 s) tacho pulse'),
    ofTurns('orders r tacho pulse'),
  ),
  'orders.pulses': page(
    'A pulse that was missed',
    'Where a pulse is missing or counted twice, the speed would seem to halve or to double for a moment, and all orders would smear.',
    ofTurns('orders r tacho pulse', 'raw/stumbling.csv'),
    ofTurns('orders (trim r to 10 s) tacho pulse', 'raw/stumbling.csv'),
  ),
  'orders.short': page(
    'Fewer turns than a segment has',
    'A segment has as many whole turns as the window takes at the mean speed.',
    ofTurns('orders (trim r 0..4 s) tacho pulse using window hann 6 s'),
    ofTurns('orders r tacho pulse using window hann 2 s'),
  ),
  'shock.resultant': page(
    'A shock response of a resultant',
    'An oscillator answers along one axis, and the length of a vector has none.',
    ofAll('resultant foam | shock over 2..30 Hz'),
    ofAll('shock foam over 2..30 Hz'),
  ),
  'shock.rate': page(
    'A shock response too near the rate',
    'The input is drawn straight between its samples, so with fewer than ten of them in a period the response comes out low.',
    after('shock foam over 5..100 Hz'),
    after('shock foam over 5..30 Hz'),
  ),
  'transfer.resultant': page(
    'A response of a resultant',
    'A frequency response has a phase, and the length of a vector has none.',
    ofAll('resultant foam | transfer from resultant to resultant'),
    ofAll('transfer foam from x to z'),
  ),
  'transfer.same': page(
    'A response of a channel to itself',
    'It is 1 at every frequency.',
    ofAll('transfer foam from x to x'),
    ofAll('transfer foam from x to z'),
  ),
  'transfer.few': page(
    'A response of few averages',
    'With few segments any two signals seem coherent; a shorter window leaves more of them.',
    ofAll('transfer foam from x to z using window hann 20 s'),
    ofAll('transfer foam from x to z using window hann 1 s'),
  ),
  'transfer.incoherent': page(
    'A response without coherence',
    'Where the output does not follow from the input alone, the ratio of the two says nothing: look at their spectra.',
    ofAll('transfer foam from x to z using window hann 1 s'),
    ofAll('spectrum foam using window hann 1 s'),
  ),
  'transfer.delay': page(
    'A response with a delay',
    'Where the output comes much later than the input, as over a slow link, it has partly left the segment that its input stands in, and the response reads low.',
    'floor = load "raw/late.csv"\ntransfer floor from base to seat using window hann 1 s',
    ofAll('transfer foam from x to z using window hann 1 s align'),
  ),
  'transfer.unaligned': page(
    'Nothing to align by',
    'The cross-correlation of unrelated channels, or of pure tones, has no one maximum that stands out.',
    ofAll('transfer foam from x to z using window hann 1 s align'),
    ofAll('transfer foam from x to z using window hann 1 s'),
  ),
  'profile.mixed': page(
    'A profile and breakpoints at once',
    'A profile is given by its breakpoints or by its name.',
    `${limit}\n${points('limit, 20 Hz')}`,
    `${limit}\n${points('limit')}`,
  ),
  'profile.few': page(
    'A profile of one breakpoint',
    'Two breakpoints make the first line.',
    points('20 Hz 0.01 g^2/Hz'),
    points('20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz'),
  ),
  'profile.slopes': page(
    'A profile of slopes alone',
    'A slope says how a density goes on, and not how high it is.',
    points('20 Hz 3 dB/octave, 80 Hz -3 dB/octave'),
    points('20 Hz 3 dB/octave, 80 Hz 0.04 g^2/Hz'),
  ),
  'profile.frequency': page(
    'A breakpoint without its frequency',
    'Each breakpoint is a frequency and a density.',
    points('0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz'),
    points('20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz'),
  ),
  'profile.density': page(
    'A breakpoint without its density',
    'Each breakpoint is a frequency and a density.',
    points('20 Hz 0.01 g^2/Hz, 80 Hz'),
    points('20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz'),
  ),
  'profile.unit': page(
    'A density in another unit',
    'The densities of a profile, and of the spectra held against it, are of one dimension: a unit squared per Hz.',
    points('20 Hz 0.01 g/Hz, 80 Hz 0.04 g/Hz'),
    points('20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz'),
  ),
  'profile.zero': page(
    'A breakpoint at zero',
    'Log-log paper has no zero.',
    points('20 Hz 0 g^2/Hz, 80 Hz 0.04 g^2/Hz'),
    points('20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz'),
  ),
  'profile.order': page(
    'Breakpoints out of order',
    'The frequencies of a profile rise from each breakpoint to the next.',
    points('80 Hz 0.04 g^2/Hz, 20 Hz 0.01 g^2/Hz'),
    points('20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz'),
  ),
  'profile.outside': page(
    'A profile past half the rate',
    'A recording holds no frequencies above half its rate, so it can’t be held against a profile that reaches there.',
    after(points('20 Hz 0.01 g^2/Hz, 2000 Hz 0.007 g^2/Hz', ' against (spectrum foam)')),
    after(points('20 Hz 0.01 g^2/Hz, 150 Hz 0.007 g^2/Hz', ' against (spectrum foam)')),
  ),
  'profile.bins': page(
    'A profile between two bins',
    'No bin of the spectrum lies within the profile; a longer window has more of them.',
    after(points('20.1 Hz 0.01 g^2/Hz, 20.4 Hz 0.01 g^2/Hz', ' against (spectrum foam)')),
    after(points('20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz', ' against (spectrum foam)')),
  ),
};
