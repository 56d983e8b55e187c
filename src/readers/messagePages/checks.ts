import type { CheckFacts } from '../messages/checks.ts';
import { example, type Pages } from './page.ts';

const z = (...values: readonly (number | string)[]): string => ['z (g)', '…', ...values, '…'].join('\n');
const check = (over = '10..50 Hz'): string => `check run over ${over}`;

export const checkPages: Pages<CheckFacts> = {
  aliasing: {
    title: 'Content close to half the rate',
    why: 'Vibration beyond half the rate is folded back, unless the logger’s filter holds it off.',
    wrong: example('a recording at 100 Hz of a machine that shakes at 45 Hz', check()),
    right: example('the same recorded at 400 Hz', check()),
  },
  'band-high': {
    title: 'A band too high for the rate',
    why: 'Beyond 0.4 of the rate the logger’s filter shows, beyond half of it a recording holds nothing.',
    wrong: example('a recording at 100 Hz', check('10..60 Hz')),
    right: example('a recording at 100 Hz', check('10..40 Hz')),
  },
  clipped: {
    title: 'A clipped channel',
    why: 'Several readings in a row stand at the largest or smallest value, more often than steps of the converter or a slow top explain, or even one at the end of the range that the lines before the table state: what was beyond it is lost.',
    wrong: example(z('1.985', '2.000', '2.000', '2.000', '1.992')),
    right: example(z('1.985', '2.310', '2.655', '2.218', '1.992')),
  },
  'extreme-alike': {
    title: 'Two readings alike at the farthest',
    why: 'Two or three readings of one top are the same. It may be the end of a range that nobody stated, or chance, as in one of some hundred channels: it is told with the checks, and with no result.',
    wrong: example(z('1.3121', '1.3838', '1.3838', '1.3204')),
    right: example(z('1.3121', '1.3838', '1.3836', '1.3204')),
  },
  wrapped: {
    title: 'Counts that overflow',
    why: 'Beyond the largest count a converter or a program that stores too few bits goes on at the smallest, so that a peak of 2.1 g of a range of ±2 g reads -1.9 g. It is told where samples jump so at least six times, up and down, and are smooth with the jumps taken out.',
    wrong: example(z('1.92', '1.98', '-1.97', '-1.95', '1.99', '1.90')),
    right: example(z('1.92', '1.98', '2.03', '2.05', '1.99', '1.90')),
  },
  drift: {
    title: 'A channel that drifts',
    why: 'Its mean moves by more than 0.05 g from start to end; levels below 1 Hz then mean nothing.',
    wrong: example('z from 1.00 g at the start to 1.08 g at the end'),
    right: example('the same less a line', 'load "run.csv" | detrend linear'),
  },
  flat: {
    title: 'A dead channel',
    why: 'It holds one value throughout.',
    wrong: example('t (s),x (g),z (g)\n0.00,0.00,1.00\n0.01,0.00,0.98\n0.02,0.00,1.01\n…'),
    right: example('the channels that are alive', 'load "run.csv" channel z'),
  },
  stuck: {
    title: 'A channel that stands still',
    why: 'It holds one value for longer than the signal and the converter let expect.',
    wrong: example(z('0.98', '1.01', '1.01', '1.01', '1.01', '1.01', '1.01', '1.01', '0.97')),
    right: example('the part before it', 'load "run.csv" | trim 0..40 s'),
  },
  'readings-repeat': {
    title: 'A logger faster than its sensor',
    why: 'Rows repeat the readings of the row before: the sensor’s own rate is lower, and so is half of it.',
    wrong: example('rows at 400 Hz from a sensor at 200 Hz: each reading stands twice'),
    right: example('rows at 200 Hz from a sensor at 200 Hz'),
  },
  'no-gravity': {
    title: 'Gravity was taken out',
    why: 'The mean vector is close to 0, so that it can show neither the unit nor the orientation.',
    wrong: example('a sensor set to linear acceleration'),
    right: example('the same sensor set to acceleration with gravity'),
  },
  gravity: {
    title: 'A mean vector that is not 1 g long',
    why: 'At rest and on average in a run it is: a scale, a unit or the sensor’s offset is wrong.',
    wrong: example('x, y and z with means 0.1, 0.1 and 0.8 g'),
    right: example('the same after a calibration in six positions'),
  },
  short: {
    title: 'A short recording',
    why: 'Fewer than 16 segments are averaged, so that the spectrum scatters widely.',
    wrong: example('a recording of 10 s', check()),
    right: example('a recording of 60 s', check()),
  },
  'segment-short': {
    title: 'Segments too short for the lowest frequency',
    why: 'A segment holds four periods of it at least.',
    wrong: example('a recording of 60 s', check('0.5..50 Hz')),
    right: example('the same with longer segments', 'spectrum run using (window hann 8 s)'),
  },
  resolution: {
    title: 'Vibration of a few steps of the converter',
    why: 'Its rounding is then as large as what is measured.',
    wrong: example(z('1.00', '1.01', '1.00', '1.00', '0.99', '1.00')),
    right: example(z('1.0023', '1.0071', '0.9988', '1.0012', '0.9941', '1.0006')),
  },
  spikes: {
    title: 'Lone samples far from all others',
    why: 'A bump lasts for several samples; one alone is a bad contact or a damaged transfer.',
    wrong: example(z('1.01', '0.98', '7.92', '1.02', '0.99')),
    right: example(z('1.01', '0.98', '1.00', '1.02', '0.99')),
  },
  'one-event': {
    title: 'One event dominates',
    why: 'A single stretch of 5 s holds most of the mean square, so that every average tells of it alone.',
    wrong: example('60 s of a smooth road with one pothole'),
    right: example('the road without it', 'load "run.csv" | trim 0..40 s'),
  },
  'not-stationary': {
    title: 'A level that changes',
    why: 'The loudest part is far louder than the quietest: start and stop are probably in it.',
    wrong: example('a run with the standstill before and after it'),
    right: example('the run alone', 'load "run.csv" | trim 12..72 s'),
  },
  trend: {
    title: 'A level that rises or falls',
    why: 'It does so evenly from start to end, as speed, surface or load may have done.',
    wrong: example('a run in which the speed rose from 4 to 6 m/s'),
    right: example('a run at a speed of 5 m/s'),
  },
};
