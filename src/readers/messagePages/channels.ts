import type { ChannelFacts } from '../messages/channels.ts';
import { example, header, rows, sound, type Pages } from './page.ts';

const noUnit = sound.replaceAll(' (g)', '');
const still = (unit: string, ...z: readonly string[]): string =>
  [`t (s),x${unit},y${unit},z${unit}`, ...z.map((value, i) => `0.0${i},0,0,${value}`)].join('\n');
const sensors =
  't (s),sensor,x (g),y (g),z (g)\n0.00,seat,0.01,0.02,1.00\n0.00,hub,0.02,0.01,0.98\n0.01,seat,0.02,0.01,1.01\n0.01,hub,0.01,0.02,1.00\n0.02,seat,0.01,0.02,1.00\n0.02,hub,0.02,0.01,0.98\n0.03,seat,0.02,0.01,1.01\n0.03,hub,0.01,0.02,1.00';
const inSi = still('', '9.81', '9.78', '9.82', '9.81');

/** A row of two sensors in turn, of which the other has other columns. */
const turns = (between: string): string =>
  `t (s),x (g),y (g),z (g),turn,heat\n${[0, 1, 2, 3].map((i) => `0.0${2 * i},0.0${i},0.01,1.00,${between}\n0.0${2 * i + 1},,,,0.${i},2${i}`).join('\n')}`;

export const channelPages: Pages<ChannelFacts> = {
  scale: {
    title: 'A scale that can’t be',
    why: 'It is what one count is in the unit that stands beside it, and not 0.',
    wrong: example(noUnit, 'load "run.csv" scale 0.001'),
    right: example(noUnit, 'load "run.csv" unit g scale 0.001'),
  },
  'too-short': {
    title: 'Too few rows',
    why: 'A recording has two rows at least.',
    wrong: example(`${rows(1)}\n`),
    right: example(sound),
  },
  'no-channels': {
    title: 'No column of numbers',
    why: 'Besides the time there is none, often because the delimiter is another.',
    wrong: example('t (s),state\n0.00,on\n0.01,on\n0.02,off\n0.03,off'),
    right: example(sound),
  },
  'no-such-channel': {
    title: 'No such column',
    why: 'The option `channels` names a column by its header, or by its number as in `column3`.',
    wrong: example(sound, 'load "run.csv" channels z="acc"'),
    right: example(sound, 'load "run.csv" channels z="z (g)"'),
  },
  'axis-not-numbers': {
    title: 'An axis that reads as text',
    why: 'The column is an axis by its name, but its cells are spelt in a way that is no number.',
    wrong: example('t (s),x (g),z (g)\n0.00,0.01,0x1000\n0.01,0.02,0x1004\n0.02,0.01,0x0ffe\n0.03,0.02,0x1001'),
    right: example('t (s),x (g),z (g)\n0.00,0.01,4096\n0.01,0.02,4100\n0.02,0.01,4094\n0.03,0.02,4097'),
  },
  'no-sensor-column': {
    title: 'No column tells the sensor',
    why: 'The option `sensor` is for files that hold the rows of several sensors in turn.',
    wrong: example(sound, 'load "run.csv" sensor "seat"'),
    right: example(sound),
  },
  'which-sensor': {
    title: 'Several sensors in turn',
    why: 'Take one of them, or several, whose channels then stand side by side.',
    wrong: example(sensors),
    right: example(sensors, 'load "run.csv" sensor "seat"'),
  },
  'no-such-sensor': {
    title: 'No such sensor',
    why: 'The column that names the sensors holds no such name.',
    wrong: example(sensors, 'load "run.csv" sensor "saddle"'),
    right: example(sensors, 'load "run.csv" sensor "seat"'),
  },
  'mostly-empty': {
    title: 'Mostly empty rows',
    why: 'More than half of the rows lack a reading of an axis: a column was probably taken for one that it is not.',
    wrong: example(
      `${header}\n0.00,0.01,0.02,1.00\n0.01,,0.01,0.98\n0.02,,0.02,1.01\n0.03,0.02,0.01,1.00\n0.04,,0.02,1.00`,
    ),
    right: example(sound),
  },
  'filled-apart': {
    title: 'Channels in different rows',
    why: 'Sensors of their own fill rows of their own, and no row holds all that are to be read.',
    wrong: example(
      `t (s),base x (g),top x (g)\n${[0, 1, 2, 3].map((i) => `0.0${2 * i},0.0${i},\n0.0${2 * i + 1},,0.${i}`).join('\n')}`,
    ),
    right: example(
      `t (s),base x (g),top x (g)\n${[0, 1, 2, 3].map((i) => `0.0${2 * i},0.0${i},\n0.0${2 * i + 1},,0.${i}`).join('\n')}`,
      'load "run.csv" channel "base x (g)"',
    ),
  },
  'other-rows': {
    title: 'Rows of other sensors',
    why: 'They hold none of the channels that were read, and readings of something else: nothing is lost there.',
    wrong: example(turns(',')),
    right: example(sound),
  },
  'sensors-unequal': {
    title: 'Sensors of unequal rates',
    why: 'Readings that stand side by side are of one time; the faster sensor would be thinned out without a filter.',
    wrong: example(
      't (s),sensor,z (g)\n0.00,seat,1.00\n0.00,hub,1.01\n0.01,seat,0.98\n0.02,seat,1.01\n0.02,hub,0.99\n0.03,seat,1.00\n0.04,seat,0.99\n0.04,hub,1.02',
      'load "run.csv" sensor "seat", "hub"',
    ),
    right: example(
      't (s),sensor,z (g)\n0.00,seat,1.00\n0.00,hub,1.01\n0.01,seat,0.98\n0.02,seat,1.01\n0.02,hub,0.99\n0.03,seat,1.00\n0.04,seat,0.99\n0.04,hub,1.02',
      'load "run.csv" sensor "seat"',
    ),
  },
  'sensors-apart': {
    title: 'Sensors that are not read together',
    why: 'Side by side stand only readings taken within half a step of each other.',
    wrong: example(
      't (s),sensor,z (g)\n0.00,seat,1.00\n0.01,seat,0.98\n0.02,seat,1.01\n5.00,hub,1.00\n5.01,hub,0.99\n5.02,hub,1.01',
      'load "run.csv" sensor "seat", "hub"',
    ),
    right: example(
      't (s),sensor,z (g)\n0.00,seat,1.00\n0.01,seat,0.98\n0.02,seat,1.01\n5.00,hub,1.00\n5.01,hub,0.99\n5.02,hub,1.01',
      'load "run.csv" sensor "seat"',
    ),
  },
  'sensors-offset': {
    title: 'Sensors that are read one after the other',
    why: 'Their rows are taken as of one time, which turns the phase between them.',
    wrong: example(sensors.replace(/(0\.0\d),hub/g, '$12,hub'), 'load "run.csv" sensor "seat", "hub"'),
    right: example(sensors, 'load "run.csv" sensor "seat", "hub"'),
  },
  sentinel: {
    title: 'A number for no reading',
    why: 'Nines far beyond all other readings stand where the logger had none; those rows count as lost. Another such number is stated with `sentinel`.',
    wrong: example(`${sound}\n0.04,9999999,9999999,9999999\n${rows(5, ',', 5)}`),
    right: example(`${header}\n${rows(9)}`),
  },
  'empty-cells': {
    title: 'Rows without a reading',
    why: 'A row in which an axis is empty counts as a lost sample.',
    wrong: example(`${sound}\n0.04,0.01,,1.01\n${rows(5, ',', 5)}`),
    right: example(`${header}\n${rows(9)}`),
  },
  'rows-repeated': {
    title: 'Rows that stand twice',
    why: 'They repeat the stamp and all readings of the row before, and are left out.',
    wrong: example(`${header}\n${rows(3)}\n${rows(7, ',', 2)}`),
    right: example(`${header}\n${rows(9)}`),
  },
  'rows-sent-again': {
    title: 'Rows that come again later',
    why: 'A buffer that was sent twice puts old rows among the new ones; the second of each is left out.',
    wrong: example(`${header}\n${rows(6)}\n${rows(3, ',', 3)}\n${rows(3, ',', 6)}`),
    right: example(`${header}\n${rows(9)}`),
  },
  'dropped-samples': {
    title: 'Samples that the logger dropped',
    why: 'It says how many, but not where: the clock is then no longer that of the samples.',
    wrong: example(`# dropped samples: 12\n${sound}`),
    right: example(sound),
  },
  'no-header': {
    title: 'No header',
    why: 'Three columns beside a time are x, y and z; others are called by their number.',
    wrong: example(rows(), 'load "run.csv" unit g'),
    right: example(sound),
  },
  'unit-conflict': {
    title: 'Units that contradict each other',
    why: 'A logger at rest shows gravity: a mean vector of 9.81 is no acceleration in g.',
    wrong: example(still(' (g)', '9.81', '9.78', '9.82', '9.81')),
    right: example(still(' (g)', '9.81', '9.78', '9.82', '9.81'), 'load "run.csv" unit m/s^2'),
  },
  'unit-unsettled': {
    title: 'Nothing settles the unit',
    why: 'Neither the header, nor an option, nor the length of the mean vector tells it.',
    wrong: example(still('', '0.02', '-0.01', '0.03', '-0.04')),
    right: example(still('', '0.02', '-0.01', '0.03', '-0.04'), 'load "run.csv" unit g'),
  },
  'unit-overruled': {
    title: 'The option overrules the header',
    why: 'The header states another unit than the option, and the mean vector agrees with the option.',
    wrong: example(still(' (g)', '9.81', '9.78', '9.82', '9.81'), 'load "run.csv" unit m/s^2'),
    right: example(still(' (m/s^2)', '9.81', '9.78', '9.82', '9.81')),
  },
  'unit-doubtful': {
    title: 'A doubtful unit',
    why: 'The mean vector is as long as gravity is in another unit than the one that is stated.',
    wrong: example(inSi, 'load "run.csv" unit g'),
    right: example(inSi, 'load "run.csv" unit m/s^2'),
  },
  calibrated: {
    title: 'Counts that were converted',
    why: 'The lines above the table state what a count is on each axis, and with it the mean vector is gravity.',
    wrong: example(
      '# calibration x: 0.004 g/count\n# calibration y: 0.004 g/count\n# calibration z: 0.004 g/count\nt (s),x,y,z\n0.00,0,0,250\n0.01,0,0,251\n0.02,0,0,249\n0.03,0,0,250',
    ),
    right: example('t (s),x (g),y (g),z (g)\n0.00,0,0,1.000\n0.01,0,0,1.004\n0.02,0,0,0.996\n0.03,0,0,1.000'),
  },
};
