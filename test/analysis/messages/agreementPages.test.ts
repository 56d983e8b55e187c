import { agreementPages } from '../../../src/analysis/messages/agreementPages.ts';
import { describePages } from './pages.ts';

describePages('the agreement of quantities', agreementPages);
