import { page, type MessagePages } from '../../result/pages.ts';
import type { LoggersFacts } from './loggers.ts';

const left = 'left = load "side/left.csv" channel z';
const held = (other: string, rest = ''): string =>
  [left, `right = load ${other}`, `loggers left with right over 5..50 Hz${rest}`].join('\n');
const right = held('"side/right.csv" channel z');

/** A page for every message about two loggers side by side; the result itself is told as a sentence. */
export const loggersPages: MessagePages<Omit<LoggersFacts, 'result.loggers'>> = {
  'loggers.runs': page(
    'Several runs of one logger',
    'Each file has a start of its own, so one is held against one.',
    held('"side/right.csv", "side/noisy.csv" channel z'),
    right,
  ),
  'loggers.same': page(
    'A logger held against itself',
    'A file agrees with itself, whatever the logger is worth.',
    held('"side/left.csv" channel z'),
    right,
  ),
  'loggers.channels': page(
    'Loggers without a channel of one name',
    'The axes of one are held against the same axes of the other.',
    held('"side/right.csv" channel x'),
    right,
  ),
  'loggers.units': page(
    'Channels that measure different things',
    'An acceleration over a speed is no ratio of sensitivities.',
    held('"side/speed.csv" channel z'),
    right,
  ),
  'loggers.unrelated': page(
    'Recordings that have nothing in common',
    'Without something that both recorded, nobody knows which moments belong together. Tones alone fit at many moments.',
    held('"side/elsewhere.csv" channel z'),
    right,
  ),
  'loggers.crossed': page(
    'Loggers that lie turned',
    'What one calls z is another axis of the other.',
    'left = load "side/left.csv" channel x, z\nright = load "side/turned.csv" channel x, z\nloggers left with right over 5..50 Hz',
    'left = load "side/left.csv" channel x, z\nright = load "side/turned.csv" channel x="z (g)", z="x (g)"\nloggers left with right over 5..50 Hz',
  ),
  'loggers.short': page(
    'Too short a time that both hold',
    'A coherence of one segment is 1 whatever the signals.',
    held('"side/right.csv" channel z', ' using window hann 20 s'),
    held('"side/right.csv" channel z', ' using window hann 2 s'),
  ),
  'loggers.band': page(
    'A band above what both can hold',
    'Near half the lower rate samples can’t be brought onto another clock without loss.',
    `${left}\nright = load "side/right.csv" channel z\nloggers left with right over 5..120 Hz`,
    right,
  ),
  'loggers.narrow': page(
    'A band between two bins',
    'A ratio needs a bin whose coherence is known.',
    `${left}\nright = load "side/right.csv" channel z\nloggers left with right over 5.1..5.3 Hz`,
    right,
  ),
  'loggers.wander': page(
    'A clock that is no straight line',
    'Lost samples make all later ones come early, and one line no longer fits both sides of the loss.',
    held('"side/slipped.csv" channel z'),
    held('"side/slipped.csv" channel z | trim 0..18 s'),
  ),
  'loggers.reversed': page(
    'An axis that points the other way',
    'Levels do not know it, transfer functions and vector sums do.',
    held('"side/reversed.csv" channel z'),
    right,
  ),
  'loggers.turned': page(
    'An axis that goes with another one',
    'One channel alike is enough to bring both onto one clock; the others are held against their names.',
    'left = load "side/three.csv"\nright = load "side/three-turned.csv"\nloggers left with right over 5..50 Hz',
    'left = load "side/three.csv"\nright = load "side/three-turned.csv" channel x="y (g)", y="x (g)", z="z (g)"\nloggers left with right over 5..50 Hz',
  ),
  'loggers.incoherent': page(
    'Loggers that have less in common than they read',
    'Noise adds to what a logger reads, and another place moves otherwise.',
    held('"side/noisy.csv" channel z'),
    right,
  ),
};
