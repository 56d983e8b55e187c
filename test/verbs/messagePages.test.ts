import { callPages } from '../../src/verbs/messagePages/calls.ts';
import { recordingPages } from '../../src/verbs/messagePages/recordings.ts';
import { wordPages } from '../../src/verbs/messagePages/words.ts';
import { describePages } from '../analysis/messages/pages.ts';

describePages('a call', callPages);
describePages('recordings', recordingPages);
describePages('words', wordPages);
