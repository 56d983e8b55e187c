import { checkedRun, sampleFaults } from '../checks/check.ts';
import { finding } from '../messages.ts';
import type { AssumedUnit } from '../messages/time.ts';
import { droppedSamples, type Assembled } from '../assemble.ts';
import type { Clock, Finding } from '../recording.ts';
import { settings } from '../settings.ts';

/** Places of a finding that are told one by one, of all parts together. */
const spansTold = 200;

/** What was found of a recording's parts, told once each. */
export class JoinedFindings {
  readonly #faults: Finding[] = [];
  readonly #others: Finding[] = [];
  #assumed: { readonly unit: AssumedUnit; readonly span: number } | undefined;
  #dropped: number | undefined;
  /** Rows in a rush that were left out. */
  #rushed = 0;

  /** Adds what was found of the next part. @param start of it in s from the recording's first sample */
  add({ recording, timed, origin }: Assembled, start: number): void {
    const assumed = timed.findings.find(({ code }) => code === 'time-unit-assumed');
    if (assumed !== undefined && this.#assumed === undefined)
      this.#assumed = { unit: assumed.facts as unknown as AssumedUnit, span: timed.stamps?.span ?? 1 };
    this.#rushed += timed.findings.find(({ code }) => code === 'rush')?.value ?? 0;
    this.#dropped ??= origin.dropped;
    for (const one of sampleFaults(checkedRun(recording))) addTo(this.#faults, one, start);
    // What is told of the clock is told of the whole.
    const others = recording.findings.filter((one) => !timed.findings.includes(one) && one.code !== 'dropped-samples');
    for (const one of others) addTo(this.#others, one, start);
  }

  /** All that was found, faults of the samples first. @param ofClock what is told of the joined clock */
  all(clock: Clock, ofClock: readonly Finding[], parts: number): Finding[] {
    return [
      ...this.#faults,
      ...this.#others,
      ...this.#assumedFinding(clock),
      ...(this.#rushed > 0 ? [finding('rush', 'warning', { rows: this.#rushed }, { value: this.#rushed })] : []),
      ...ofClock,
      ...droppedSamples(this.#dropped, clock),
      finding('read-in-parts', 'note', { parts }),
    ];
  }

  #assumedFinding({ stretches, rate }: Clock): Finding[] {
    if (this.#assumed === undefined) return [];
    const { unit, span } = this.#assumed;
    const last = stretches[stretches.length - 1];
    const longer = (last.start + (last.to - last.from - 1) / rate) / span;
    const { column, taken, other } = unit;
    // What a part is too short for, the whole may be long enough for.
    if (taken.unit === 's' && taken.length * longer >= settings.minutes.length) return [];
    const facts = {
      column,
      taken: { ...taken, length: taken.length * longer },
      other: { ...other, length: other.length * longer },
    };
    return [finding('time-unit-assumed', 'warning', facts)];
  }
}

function addTo(found: Finding[], one: Finding, start: number): void {
  const spans = one.spans?.map(({ from, to }) => ({ from: from + start, to: to + start }));
  const at = found.findIndex(({ code, channel }) => code === one.code && channel === one.channel);
  if (at < 0) found.push(spans === undefined ? one : { ...one, spans });
  else if (spans !== undefined && (found[at].spans?.length ?? 0) < spansTold)
    found[at] = { ...found[at], spans: [...(found[at].spans ?? []), ...spans].slice(0, spansTold) };
}
