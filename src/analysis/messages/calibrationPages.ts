import { page, type MessagePages } from '../../result/pages.ts';
import type { CalibrationFacts } from './calibration.ts';

const six = 'calibrate (load "still/six-*.csv")';
const fromOne = 'K = calibrate (load "raw/still.csv")\n';

/** A page for every message about still positions. */
export const calibrationPages: MessagePages<CalibrationFacts> = {
  'calibrate.axes': page(
    'A still position without three axes',
    'Which way a sensor lies is told from gravity on all three.',
    'calibrate (load "raw/still.csv" channel x, z)',
    six,
  ),
  'calibrate.moving': page(
    'A position that is not still',
    'What moves has a mean that is not gravity alone.',
    'calibrate (load "raw/brick-foam-1.csv.gz")',
    six,
  ),
  'calibrate.oblique': page(
    'A position between two faces',
    'Along which axis gravity acts has to be known.',
    'calibrate (load "still/six-1.csv", "still/oblique.csv")',
    six,
  ),
  'calibrate.positions': page(
    'Too few positions',
    'A line has an offset and a slope, and so needs two readings that differ, and a third to tell how good it is.',
    'calibrate (load "still/six-1.csv", "still/six-2.csv")',
    six,
  ),
  'calibrate.length': page(
    'A mean that is no gravity',
    'A unit or a scale that is wrong by much is no matter of calibration.',
    'calibrate (load "still/six-1.csv" unit g scale 0.5)',
    six,
  ),
  'calibrate.one': page(
    'One position alone',
    'It can’t tell an offset from a sensitivity.',
    'calibrate (load "raw/still.csv")',
    six,
  ),
  'calibrate.tilted': page(
    'Faces that are not level',
    'What acts across an axis should be nothing, and a tilt of 3° is 5 % of gravity.',
    'calibrate (load "still/tilted-*.csv")',
    six,
  ),
  'calibration.axis': page(
    'An axis that was not calibrated',
    'Every channel that is loaded is corrected, or none.',
    `${fromOne}load "raw/two-units.csv" channel x, v calibration K`,
    `${fromOne}load "raw/two-units.csv" channel x calibration K`,
  ),
  'calibration.unit': page(
    'A channel that is no acceleration',
    'An offset in g can’t be taken off it.',
    `${fromOne}load "raw/two-units.csv" channel z="v" calibration K`,
    `${fromOne}load "raw/two-units.csv" channel x calibration K`,
  ),
};
