import { valuePages } from '../../src/values/messagePages.ts';
import { describePages } from '../analysis/messages/pages.ts';

describePages('fields and picks', valuePages);
