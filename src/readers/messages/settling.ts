import type { Settling } from '../../result/messages.ts';
import type { ChannelFacts } from './channels.ts';
import type { TextFacts } from './text.ts';
import type { TimeFacts } from './time.ts';

/** The options of `load` that settle what a file leaves open, the likeliest first. */
export const settling: Settling<TextFacts & TimeFacts & ChannelFacts> = {
  'no-table': ({ found }) => (found === undefined ? [] : found.why === 'comments' ? ['skip'] : ['delimiter', 'skip']),
  'two-tables': () => ['skip'],
  'ambiguous-delimiter': () => ['delimiter', 'decimal'],
  'ambiguous-decimal': () => ['decimal'],
  'header-mismatch': ({ isSplit }) => (isSplit ? [] : ['delimiter', 'skip']),
  'header-changes': ({ isEarly }) => (isEarly ? ['skip'] : []),
  ragged: ({ isEarly }) => (isEarly ? ['skip', 'delimiter'] : ['delimiter']),
  'not-a-number': ({ isOtherMark }) => (isOtherMark ? ['decimal'] : []),
  'time-stands-still': () => ['time', 'rate'],
  'time-or-counter': () => ['rate'],
  'time-unit': (facts) => ('readings' in facts ? ['rate'] : ['time', 'rate']),
  'time-unit-assumed': () => ['rate'],
  'times-differ': () => ['time'],
  'rate-impossible': () => ['time', 'rate'],
  'no-rate': () => ['rate', 'time'],
  scale: ({ lacksUnit }) => (lacksUnit ? ['unit'] : []),
  'axis-not-numbers': () => ['decimal', 'delimiter'],
  'which-sensor': () => ['sensor'],
  'mostly-empty': () => ['channels'],
  'no-header': () => ['channels'],
  'unit-conflict': ({ option }) => (option === undefined ? ['unit'] : ['scale']),
  'unit-unsettled': () => ['unit', 'scale'],
  'unit-doubtful': ({ by }) => (by === 'header' ? ['unit'] : []),
};
