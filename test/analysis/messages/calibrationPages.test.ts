import { calibrationPages } from '../../../src/analysis/messages/calibrationPages.ts';
import { describePages } from './pages.ts';

describePages('still positions', calibrationPages);
