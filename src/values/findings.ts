import { figure, runName } from './columns.ts';
import type { Description } from './description.ts';
import type { Question } from '../readers/checks/checked.ts';
import type { SeenRun } from '../readers/checks/seen.ts';
import type { Finding } from '../readers/recording.ts';
import type { Run } from './run.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

export interface FindingsValue {
  readonly kind: 'findings';
  readonly rows: readonly FindingRow[];
  /** What was looked at, by which runs that were checked one by one are held against each other. */
  readonly looked?: {
    readonly question: Question;
    readonly runs: readonly { readonly run: Run; readonly seen: SeenRun }[];
  };
}

export interface FindingRow {
  readonly run: Run;
  readonly finding: Finding;
}

export const findingsKind = {
  kind: 'findings',
  words: 'findings',
  summary: ({ rows }) => inShort('findings', counted(rows.length, 'row')),
  caption: () => 'Findings',
  whole: [],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['finding', 'a finding'],
    names: [runName],
    columns: [
      figure('severity', '', ({ finding }) => finding.severity),
      figure('code', '', ({ finding }) => finding.code),
      figure('value', '', ({ finding }) => finding.value),
      figure('message', '', ({ finding }) => finding.message),
    ],
    jsonFirst: ['code', 'severity', 'message'],
  },
  runs: () => [],
} satisfies Description<FindingsValue, FindingRow>;
