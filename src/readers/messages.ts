import { messages, type Sentences } from '../result/messages.ts';
import type { Message } from '../result/result.ts';
import { channelSentences, type ChannelFacts } from './messages/channels.ts';
import { checkSentences, type CheckFacts } from './messages/checks.ts';
import { fileSentences, type FileFacts } from './messages/file.ts';
import { setSentences, type SetFacts } from './messages/set.ts';
import { settling } from './messages/settling.ts';
import { textSentences, type TextFacts } from './messages/text.ts';
import { timeSentences, type TimeFacts } from './messages/time.ts';
import type { Finding, Severity } from './recording.ts';

/** All that the readers may say, by code: why a file can't be read, and what is worth mentioning of one that was. */
export interface ReaderFacts extends FileFacts, TextFacts, TimeFacts, ChannelFacts, CheckFacts, SetFacts {}

export type ReaderCode = keyof ReaderFacts;

const sentences: Sentences<ReaderFacts> = {
  ...fileSentences,
  ...textSentences,
  ...timeSentences,
  ...channelSentences,
  ...checkSentences,
  ...setSentences,
};

const { tell, tellOf, refuse } = messages<ReaderFacts>(sentences, settling);

export { refuse };

/** What was found of a recording, told of the run that it is. */
export const findingOf = (run: string, found: Finding): Message => {
  const { code, facts, message } = tellOf(run, found);
  return { code, facts, message };
};

/** A finding: its sentence is made of the facts; what it was judged by, and where it lies, goes beside it. */
export function finding<Code extends ReaderCode>(
  code: Code,
  severity: Severity,
  facts: ReaderFacts[Code] & object,
  basis: Pick<Finding, 'value' | 'threshold' | 'channel' | 'spans' | 'lost'> = {},
): Finding {
  return { ...tell(code, facts), severity, ...basis };
}
