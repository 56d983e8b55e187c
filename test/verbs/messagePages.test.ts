import { callPages, recordingPages, wordPages } from '../../src/verbs/messagePages.ts';
import { describePages } from '../analysis/messages/pages.ts';

describePages('a call', callPages);
describePages('recordings', recordingPages);
describePages('words', wordPages);
