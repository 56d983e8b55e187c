import { shortRunsRead } from '../../analysis/recordings/longTrim.ts';
import { trimmed, type Span } from '../../analysis/recordings/trim.ts';
import { success, type Result } from '../../result/result.ts';
import { answerOf, operand, rangeIn, siOf, valueOf, type Arguments, type Verb, refuse } from '../verb.ts';

export const trim: Verb = {
  takesLong: true,
  each: 'runs',
  views: true,
  passesFaults: true,
  form: {
    verb: 'trim',
    summary: 'Keeps a stretch of each run.',
    help: 'Keeps the samples with from <= t < to, where t is counted from the first sample of each run as it is given. Instead of a range, `from`, `to` and `length` may be given. A stretch that reaches outside a run is an error that states how long the run is.',
    operands: [
      { name: 'runs', doc: 'The runs to trim.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'stretch',
        doc: 'The stretch to keep, as in `5..80 s`.',
        accepts: [{ type: 'range', dimension: 'time' }],
        optional: true,
      },
    ],
    options: [
      {
        keyword: 'from',
        doc: 'Start of the stretch.',
        accepts: [{ type: 'quantity', dimension: 'time', least: 0 }],
        default: '0 s',
      },
      {
        keyword: 'to',
        doc: 'End of the stretch.',
        accepts: [{ type: 'quantity', dimension: 'time', above: 0 }],
        default: 'the end of the run',
      },
      {
        keyword: 'length',
        doc: 'Length of the stretch.',
        accepts: [{ type: 'quantity', dimension: 'time', above: 0 }],
      },
    ],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz"\ntrim foam 10..70 s',
      'foam = load "raw/brick-foam-*.csv.gz"\ntrim foam from 10 s length 60 s',
    ],
  },
  async evaluate(given, context) {
    const asked = spanIn(given);
    if (!asked.ok) return asked;
    const { span, at } = asked.value;
    const cut = trimmed(valueOf(given, 'runs', 'runs'), span, at);
    return answerOf(cut.ok ? await shortRunsRead(cut.value, context) : cut);
  },
};

/** The stretch that is asked for, and the operand or option that says it. */
function spanIn(given: Arguments): Result<{ readonly span: Span; readonly at: string }> {
  const range = rangeIn(operand(given, 'stretch'));
  const [from, to, length] = ['from', 'to', 'length'].map((name) => siOf(given, name));
  const count = [from, to, length].filter((one) => one !== undefined).length;
  if (range !== undefined)
    return count > 0 ? refuse('trim.twice', { range: true }, 'stretch') : success({ span: range, at: 'stretch' });
  if (count === 0) return refuse('operand.missing', { verb: 'trim' }, 'runs');
  if (count === 3) return refuse('trim.twice', { range: false }, 'length');
  const at = from !== undefined ? 'from' : to !== undefined ? 'to' : 'length';
  if (from !== undefined && to !== undefined && from >= to) return refuse('range.backward', { from, to }, at);
  return success({ span: { from, to, length }, at });
}
