import type { OptionForm } from '../../language/form.ts';
import { success, type Refused, type Result } from '../../result/result.ts';
import { formatQuantity } from '../../units/format.ts';
import type { Drawable } from '../../values/chart.ts';
import { decibelsOf, iso1683, type LevelReference } from '../../values/decibels.ts';
import type { Unit } from '../../units/unit.ts';
import { option, quantityIn, textsIn, type Arguments, refuse } from '../verb.ts';

/** What levels in dB are over, beside `scale dB`. */
export const referenceOption: OptionForm = {
  keyword: 're',
  doc: 'What `scale dB` is over: an amount, or `iso1683`, the preferred reference values of ISO 1683:2015 (1 µm/s², 1 nm/s, 1 pm, 1 µN). An amplitude is told as 20 log10 of its ratio to it, a density as 10 log10 of its ratio to the square.',
  accepts: [
    { type: 'quantity', dimension: 'any', above: 0 },
    { type: 'word', words: ['iso1683'] },
  ],
  default: 'iso1683',
};

/** Of verbs that have no other scale. */
export const decibelsOption: OptionForm = {
  keyword: 'scale',
  doc: 'Levels in dB over the reference that `re` names.',
  accepts: [{ type: 'word', words: ['dB'] }],
};

/** What levels are to be told over, or undefined where they are not; refused of a reference without its scale. */
export function levelReferenceIn(given: Arguments): Result<LevelReference | undefined> {
  const asked = option(given, 're');
  if (!textsIn(given.options.scale).includes('dB'))
    return asked === undefined ? success(undefined) : refuse('scale.words', {}, 're');
  const quantity = quantityIn(asked);
  return success(quantity === undefined ? iso1683 : { quantities: [quantity] });
}

/** The refusal of what measures nothing that levels over the reference are of. */
export const noLevels = ({ quantities }: LevelReference, at: string): Refused =>
  refuse('scale.reference', { references: quantities.map((one) => formatQuantity(one, 6)) }, at);

/** Whether a chart of the value has levels that can be told over the reference. */
export const hasLevels = (value: Drawable, reference: LevelReference): boolean =>
  unitsDrawn(value).some((unit) => decibelsOf(unit, reference) !== undefined);

/** Units of the sizes that a chart shows; none where it shows signals over time, ratios or counts. */
function unitsDrawn(value: Drawable): readonly Unit[] {
  switch (value.kind) {
    case 'spectrum':
      return value.entries.map(({ unit }) => unit);
    case 'peaks':
      return value.spectrum.entries.map(({ unit }) => unit);
    case 'levels':
      return value.rows.map(({ channel }) => channel.unit);
    case 'running':
    case 'shock':
      return value.entries.map(({ channel }) => channel.unit);
    case 'bands':
      return value.rows.map(({ unit }) => unit);
    case 'comparison':
      return value.rows.map(({ unit }) => unit);
    case 'runs':
    case 'transfer':
    case 'spectrogram':
    case 'profile':
    case 'verdict':
    case 'earlier':
    case 'pooled':
    case 'repeats':
      return [];
  }
}
