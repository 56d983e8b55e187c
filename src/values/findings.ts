import type { Finding } from '../readers/recording.ts';
import type { Run } from './run.ts';

export interface FindingsValue {
  readonly kind: 'findings';
  readonly rows: readonly { readonly run: Run; readonly finding: Finding }[];
}
