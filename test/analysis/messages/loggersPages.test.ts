import { loggersPages } from '../../../src/analysis/messages/loggersPages.ts';
import { describePages } from './pages.ts';

describePages('two loggers side by side', loggersPages);
