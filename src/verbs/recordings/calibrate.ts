import { calibrated } from '../../analysis/recordings/calibrate.ts';
import { siOf, valueOf, type Verb } from '../verb.ts';

const standardGravity = 9.80665;

export const calibrate: Verb = {
  form: {
    verb: 'calibrate',
    summary: 'Gives offset and sensitivity of a sensor’s axes from still positions.',
    help: 'Each run is one still position, with x, y and z and their means. Of three and more positions, usually six with each axis up and down, a line is drawn through each axis’ means by least squares, over +1, −1 and 0 times gravity: the axis nearest to gravity is along it, the others across. Standard uncertainties are those of the line (JCGM 100:2008, H.3), with two degrees of freedom fewer than positions: six positions leave four. A face that lies 2° off level reads 0.06 % less along and 3.5 % of g across, which the scatter shows. One position alone gives one factor for all axes, holds only without offsets, and has no uncertainty. `load … calibration K` takes the offsets off and divides by the sensitivities; their uncertainty widens what is read off levels and bands, and falls out of ratios of one sensor.',
    operands: [{ name: 'runs', doc: 'Still positions, a run each.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [
      {
        keyword: 'against',
        doc: 'The acceleration of gravity where the sensor lay.',
        accepts: [{ type: 'quantity', dimension: 'acceleration', least: 9.7, most: 9.9 }],
        default: '9.80665 m/s^2',
      },
    ],
    gives: 'calibration',
    examples: ['K = calibrate (load "raw/still.csv")\nfoam = load "raw/brick-foam-*.csv.gz" calibration K\nK'],
  },
  evaluate(given) {
    return calibrated(valueOf(given, 'runs', 'runs'), siOf(given, 'against') ?? standardGravity);
  },
};
