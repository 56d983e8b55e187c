import { exactly, shaped, type Schema } from './shapes.ts';

/** A curve of a spectrum in JSON: a density or an amplitude, with its limits. */
const curve: Readonly<Record<string, Schema>> = {
  density: shaped('numbers'),
  amplitude: shaped('numbers'),
  low: shaped('numbers'),
  high: shaped('numbers'),
  spacing_hz: shaped('number'),
  spacing: shaped('number'),
};

const ofEither = ['density', 'amplitude', 'spacing_hz', 'spacing'];
const mean = exactly({ channel: shaped('text'), ...curve }, ofEither);

/** What JSON of a spectrum looks like. Over orders or cycles per metre its keys lose their `_hz`. */
export const spectrumSchema: Schema = exactly(
  {
    unit: shaped('text'),
    form: { enum: ['psd', 'amplitude'] },
    window: shaped('text'),
    axis: shaped('text'),
    axis_unit: shaped('text'),
    by: shaped('text'),
    spacing_hz: shaped('number'),
    spacing: shaped('number'),
    segments: shaped('number'),
    segment_samples: shaped('number'),
    enbw_hz: shaped('number'),
    enbw: shaped('number'),
    averages: shaped('number'),
    confidence: shaped('number'),
    frequency_hz: shaped('numbers'),
    position: shaped('numbers'),
    runs: {
      type: 'array',
      items: exactly(
        {
          run: shaped('text'),
          channel: shaped('text'),
          unit: shaped('text'),
          segments: shaped('number'),
          averages: shaped('number'),
          ...curve,
        },
        ['unit', ...ofEither],
      ),
    },
    mean: { anyOf: [mean, { type: 'null' }] },
    means: { type: 'array', items: mean },
  },
  ['axis', 'axis_unit', 'by', 'spacing_hz', 'spacing', 'enbw_hz', 'enbw', 'frequency_hz', 'position'],
);
