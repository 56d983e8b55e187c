import { messages, type Sentences } from '../../result/messages.ts';
import { toMillisecond } from '../../analysis/amounts.ts';

/** What can be wrong with a call's arguments taken together. Times are in s. */
export interface CallFacts {
  'operand.missing': { readonly verb: 'load' | 'trim' };
  'option.value': { readonly option: 'decimal' | 'clock' };
  /** `range`: a range and options, else all three options. */
  'trim.twice': { readonly range: boolean };
  'range.backward': { readonly from: number; readonly to: number };
  'sheet.missing': { readonly option: 'where' | 'including' };
  'plot.mixed':
    | { readonly why: 'axes'; readonly time: string; readonly frequency: string }
    | { readonly why: 'orders' | 'options'; readonly axis: string };
}

function mixedPlot(facts: CallFacts['plot.mixed']): string {
  switch (facts.why) {
    case 'axes':
      return `A chart is over time, as for ${facts.time}, or over frequency, as for ${facts.frequency}: make two charts.`;
    case 'orders':
      return `A spectrum over ${facts.axis} shares a chart only with its like: make two charts.`;
    case 'options':
      return `The axis of this chart is ${facts.axis}, and \`over\` and \`mark\` are in Hz or s: leave them out.`;
  }
}

const sentences: Sentences<CallFacts> = {
  'operand.missing': ({ verb }) =>
    verb === 'trim'
      ? 'trim needs the stretch to keep, as in "trim runs 5..80 s".'
      : 'load needs files, as in load "raw/*.csv", or a run sheet, as in load sheet "runs.csv".',
  'option.value': ({ option }) =>
    option === 'clock' ? 'clock is "hh:mm" or "mm:ss".' : `The ${option} mark is "." or ",".`,
  'trim.twice': ({ range }) =>
    range
      ? 'Give the stretch once: a range, or from, to and length.'
      : 'Two of from, to and length settle the stretch: leave one out.',
  'range.backward': ({ from, to }) =>
    `The stretch ends (${toMillisecond(to)}) before it begins (${toMillisecond(from)}).`,
  'sheet.missing': ({ option }) =>
    option === 'where'
      ? 'where chooses rows of a run sheet: name one, as in sheet "runs.csv".'
      : 'Only a run sheet excludes runs: name one, as in sheet "runs.csv".',
  'plot.mixed': mixedPlot,
};

export const { refuse } = messages(sentences);
