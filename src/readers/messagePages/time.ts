import type { TimeFacts } from '../messages/time.ts';
import { example, sound, type Pages } from './page.ts';

const bare = 'x (g),y (g),z (g)\n0.01,0.02,1.00\n0.02,0.01,0.98\n0.01,0.02,1.01\n0.02,0.01,1.00';
const times = (name: string, ...stamps: readonly string[]): string =>
  [`${name},z (g)`, ...stamps.map((stamp, i) => `${stamp},${['1.00', '0.98', '1.01'][i % 3]}`)].join('\n');
const twoTimes =
  'time (s),time (ms),z (g)\n0.00,0,1.00\n0.01,20,0.98\n0.02,40,1.01\n0.03,60,1.00\n0.04,80,0.98\n0.05,100,1.01';
const stopped = times('t (s)', '7', '7', '7', '7', '7');
const raw = times('time', '0', '100', '200', '300', '400', '500');

const disordered = times('t (s)', '0.00', '0.01', '0.02', '0.00', '0.05', '0.03', '0.06', '0.04', '0.07');

export const timePages: Pages<TimeFacts> = {
  timezone: {
    title: 'No offset from UTC',
    why: 'The names of zones change their meaning with the seasons; an offset does not.',
    wrong: example(sound, 'load "run.csv" timezone "Berlin"'),
    right: example(sound, 'load "run.csv" timezone "+02:00"'),
  },
  'no-time-column': {
    title: 'No such column',
    why: 'The option `time` takes a header as it stands in the file, with or without its unit.',
    wrong: example(sound, 'load "run.csv" time "seconds"'),
    right: example(sound, 'load "run.csv" time "t"'),
  },
  'time-not-numbers': {
    title: 'A column of text as time',
    why: 'A time is a column of numbers or of clock stamps.',
    wrong: example('t (s),state,z (g)\n0.00,on,1.00\n0.01,on,0.98\n0.02,off,1.01', 'load "run.csv" time "state"'),
    right: example('t (s),state,z (g)\n0.00,on,1.00\n0.01,on,0.98\n0.02,off,1.01', 'load "run.csv" time "t"'),
  },
  'time-stands-still': {
    title: 'A time that does not run forward',
    why: 'A clock that stands still or jumps about tells no rate.',
    wrong: example(stopped, 'load "run.csv" time "t"'),
    right: example(stopped, 'load "run.csv" rate 100 Hz'),
  },
  'time-or-counter': {
    title: 'A time, or a count of rows',
    why: 'Numbers that go up by 1 from row to row are milliseconds at 1000 Hz, or only count.',
    wrong: example(times('time', '1', '2', '3', '4', '5')),
    right: example(times('time', '1', '2', '3', '4', '5'), 'load "run.csv" rate 1000 Hz'),
  },
  'time-unit': {
    title: 'A time without a unit',
    why: 'Steps of 100 are 10 Hz in milliseconds and 10 kHz in microseconds, and vibration is sampled at both.',
    wrong: example(raw),
    right: example(raw, 'load "run.csv" rate 10 Hz'),
  },
  'time-unit-assumed': {
    title: 'A unit of time that was assumed',
    why: 'A time without a unit is read in the one unit that gives a rate at which vibration is sampled, and a few seconds at a rate that no converter has may be minutes; a stated rate settles it.',
    wrong: example(times('time', '0', '10', '20', '30', '40')),
    right: example(times('time (ms)', '0', '10', '20', '30', '40')),
  },
  'times-differ': {
    title: 'Two times that do not agree',
    why: 'Two columns are times, and give different rates.',
    wrong: example(twoTimes),
    right: example(twoTimes, 'load "run.csv" time "time (s)"'),
  },
  'rows-disordered': {
    title: 'Rows in no order',
    why: 'Rows that were sent twice are left out; if what remains still jumps back and forth, lies in gaps of earlier rows, or says something else under the same stamps, the order of the samples is lost.',
    wrong: example(disordered),
    right: example(times('t (s)', '0.00', '0.01', '0.02', '0.03', '0.04', '0.05', '0.06', '0.07')),
  },
  'rate-impossible': {
    title: 'A rate that no logger has',
    why: 'The column would be a time if its unit were another, or is none.',
    wrong: example(times('t (h)', '0', '10', '20', '30', '40')),
    right: example(times('t (ms)', '0', '10', '20', '30', '40')),
  },
  'no-rate': {
    title: 'Nothing tells the rate',
    why: 'No column is a time, and no line above the table states a rate.',
    wrong: example(bare),
    right: example(bare, 'load "run.csv" rate 100 Hz'),
  },
  'clock-parts': {
    title: 'A clock of two parts',
    why: 'They are hours and minutes or minutes and seconds, and both give a rate.',
    wrong: example('time,z (g)\n10:20,1.00\n10:20,0.98\n10:21,1.01\n10:21,1.00\n10:22,0.98\n10:22,1.01'),
    right: example(
      'time,z (g)\n10:20,1.00\n10:20,0.98\n10:21,1.01\n10:21,1.00\n10:22,0.98\n10:22,1.01',
      'load "run.csv" clock "mm:ss"',
    ),
  },
  rush: {
    title: 'Stamps in a rush after a gap',
    why: 'A logger that was busy stamps what it missed all at once: nobody can tell when those rows were sampled.',
    wrong: example('t (s),z (g)\n…\n1.990,1.00\n2.490,0.98\n2.491,1.01\n2.492,1.00\n2.493,0.99\n2.500,1.01\n…'),
    right: example('t (s),z (g)\n…\n1.990,1.00\n2.490,0.98\n2.500,1.01\n2.510,1.00\n…'),
  },
  'stamps-astray': {
    title: 'Stamps that are far off for a while',
    why: 'The clock could not be read, and then went on where even steps would have come to: nothing is lost, and nothing was set.',
    wrong: example('t (s),z (g)\n…\n7.480,1.00\n7.490,0.98\n0.000,1.01\n7.510,1.00\n7.520,0.99\n…'),
    right: example('t (s),z (g)\n…\n7.480,1.00\n7.490,0.98\n7.500,1.01\n7.510,1.00\n7.520,0.99\n…'),
  },
  'rate-differs': {
    title: 'The stamps and the stated rate differ',
    why: 'Frequencies scale with the rate: 5 % too much of it moves a peak at 20 Hz to 21 Hz.',
    wrong: example(sound, 'load "run.csv" rate 110 Hz'),
    right: example(sound),
  },
  'rate-uncertain': {
    title: 'Losses that coarse stamps hide',
    why: 'Stamps as coarse as the time between samples tell that some are lost, but not each of them: the rate is uncertain.',
    wrong: example('t (s),z (g)\n…\n0.001,1.00\n0.001,0.98\n0.002,1.01\n0.005,1.00\n…'),
    right: example('t (s),z (g)\n…\n0.00100,1.00\n0.00175,0.98\n0.00250,1.01\n0.00325,1.00\n…'),
  },
  gap: {
    title: 'A gap',
    why: 'Samples are missing. No segment of a spectrum goes across, and running levels begin anew.',
    wrong: example('t (s),z (g)\n…\n1.98,1.00\n1.99,0.98\n2.51,1.01\n2.52,1.00\n…'),
    right: example('the part between gaps', 'load "run.csv" | trim 3..60 s'),
  },
  bursts: {
    title: 'Samples delivered in bursts',
    why: 'Stamps tell when packets arrived and not when samples were taken: those are taken as even.',
    wrong: example('t (s),z (g)\n0.00,1.00\n0.00,0.98\n0.00,1.01\n0.03,1.00\n0.03,0.98\n…'),
    right: example('t (s),z (g)\n0.00,1.00\n0.01,0.98\n0.02,1.01\n0.03,1.00\n0.04,0.98\n…'),
  },
  'coarse-stamps': {
    title: 'Stamps that several samples share',
    why: 'The clock is written in steps larger than the time between samples; the rate is taken from its edges.',
    wrong: example('time,z (g)\n14:02:01,1.00\n14:02:01,0.98\n14:02:01,1.01\n…'),
    right: example('time,z (g)\n14:02:01.00,1.00\n14:02:01.01,0.98\n14:02:01.02,1.01\n…'),
  },
  'rounded-or-lost': {
    title: 'Stamps rounded to no decimal place, or losses',
    why: 'Samples at 380 Hz whose stamps are rounded to 2.5 ms have the stamps of samples at 400 Hz of which each twentieth is lost. Hardly a logger rounds to that, and the rate, with every frequency, would be 5 % too low.',
    wrong: example('t (s),z (g)\n…\n0.0400,1.00\n0.0425,0.98\n0.0450,1.01\n0.0500,1.00\n0.0525,0.99\n…'),
    right: example('t (s),z (g)\n…\n0.0400,1.00\n0.0425,0.98\n0.0450,1.01\n0.0475,1.02\n0.0500,1.00\n0.0525,0.99\n…'),
  },
  'rounded-stamps': {
    title: 'Rounded stamps',
    why: 'Steps of 2 and 3 ms at 400 Hz are the rounding of the stamps and no unevenness.',
    wrong: example('t (s),z (g)\n0.000,1.00\n0.002,0.98\n0.005,1.01\n0.007,1.00\n…'),
    right: example('t (s),z (g)\n0.0000,1.00\n0.0025,0.98\n0.0050,1.01\n0.0075,1.00\n…'),
  },
  'stamps-out-of-order': {
    title: 'Stamps that repeat or run back',
    why: 'A few do; the rows are read in the order in which they stand.',
    wrong: example('t (s),z (g)\n0.00,1.00\n0.01,0.98\n0.01,1.01\n0.03,1.00\n…'),
    right: example('t (s),z (g)\n0.00,1.00\n0.01,0.98\n0.02,1.01\n0.03,1.00\n…'),
  },
  uneven: {
    title: 'Uneven sampling',
    why: 'Up to 5 % scatter of the steps is taken as even. Beyond, levels and plots are of the samples as logged; what needs a uniform rate resamples them up to 25 %, beyond which that must be asked for.',
    wrong: example('t (s),z (g)\n0.000,1.00\n0.013,0.98\n0.017,1.01\n0.031,1.00\n…'),
    right: example('the same, brought to even steps by hand', 'load "run.csv" | resample 100 Hz'),
  },
  'clock-reset': {
    title: 'A clock that jumps back',
    why: 'It was set, or two recordings were joined. What follows is a stretch of its own.',
    wrong: example('t (s),z (g)\n…\n59.98,1.00\n59.99,0.98\n0.00,1.01\n0.01,1.00\n…'),
    right: example('the two recordings in files of their own', 'load "run-*.csv"'),
  },
  'clock-stopped': {
    title: 'A clock that stood still',
    why: 'Rows went on while it did, and nobody can tell when they were sampled.',
    wrong: example('t (s),z (g)\n…\n2.00,1.00\n2.00,0.98\n2.00,1.01\n… (60 rows)'),
    right: example('the part before it', 'load "run.csv" | trim 0..2 s'),
  },
};
