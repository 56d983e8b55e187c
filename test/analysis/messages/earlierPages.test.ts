import { earlierPages } from '../../../src/analysis/messages/earlierPages.ts';
import { describePages } from './pages.ts';

describePages('earlier studies', earlierPages);
