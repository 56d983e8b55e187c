import { readFileSync } from 'node:fs';
import { listed } from '../../src/result/words.ts';

const results = readFileSync(new URL('../simulate/RESULTS.md', import.meta.url), 'utf8');

/** A line of the results that is outside its limits, and what is said of it. */
const misses: readonly (readonly [line: RegExp, said: (...parts: string[]) => string])[] = [
  [
    /^order (known|not known), spreads ([\d/]+) %, (\d+) runs: coverage ([\d.]+) %, not within ([\d.]+) to ([\d.]+) %$/,
    (order, spreads, runs, found, least, most) =>
      `with ${runs} runs of each, whose order is ${order} and which scatter by ${spreads.replace('/', ' and ')} %, ${found} % of the intervals hold the true change (goal: ${least} to ${most} %)`,
  ],
  [
    /^(\d+) bands, ([\d.]+) common, (\d+) runs: ([\d.]+) %, more than ([\d.]+) %$/,
    (bands, common, runs, found, most) =>
      `with ${bands} bands that have ${common === '0' ? 'nothing' : `${common} of their variance`} in common and ${runs} runs of each, an interval misses in ${found} % of studies (goal: at most ${most} %)`,
  ],
  [
    /^(\d+) \+ (\d+) runs, order (known|not known), (.+), spreads ([\d/]+) %: coverage ([\d.]+) %, not within ([\d.]+) to ([\d.]+) %$/,
    (a, b, order, wandering, spreads, found, least, most) =>
      `with ${a} runs of one and ${b} of the other, whose order is ${order}, which scatter by ${spreads.replace('/', ' and ')} %${wandering === 'nothing' ? '' : ` and have a ${wandering.replace('drift ', 'drift of ')}`}, ${found} % of the intervals hold the true change (goal: ${least} to ${most} %)`,
  ],
  [
    /^(\d+ (?:runs each, speeds|days, ).+): coverage ([\d.]+) %, not within ([\d.]+) to ([\d.]+) %$/,
    (label, found, least, most) =>
      `with ${label}, ${found} % of the intervals hold the true change (goal: ${least} to ${most} %)`,
  ],
  [
    /^any miss: (\d+ conditions, \d+ runs each, [\d/.]+ %, (?:each with the first|all pairs)): ([\d.]+) %, more than ([\d.]+) %$/,
    (label, found, most) =>
      `with one scatter for all as planned, of ${label}, an interval misses in ${found} % of studies (goal: at most ${most} %)`,
  ],
  [
    /^differences between strata: (.+): ([\d.]+) %, more than ([\d.]+) %$/,
    (label, found, most) =>
      `with ${label}, p of differences between strata is at most 5 % in ${found} % of studies where the change is alike in all (goal: at most ${most} %)`,
  ],
];

const withinLine = /^any miss within strata: .*?(\d+) runs each in every one.*: ([\d.]+) %, more than ([\d.]+) %$/;

/**
 * Where the comparisons miss their goals by simulation, in one sentence made from the tables that `npm run simulate` writes.
 *
 * @param text of those tables
 * @throws Error where they have a line that there are no words for
 */
export function simulatedSentence(text = results): string {
  const [, seed, count] = /\(seed (\d+), (\d+) experiments a line/.exec(text) ?? [];
  if (seed === undefined) throw new Error('the results of the simulation do not say their seed');
  const all = broken(text);
  const single = all.filter((line) => !withinLine.test(line));
  const said = [...single.map(missSaid), ...withinStrata(all), ...humps(text)];
  const outcome = said.length === 0 ? 'every case meets its goal' : said.join('; ');
  return `Where the intervals miss their goal, by simulation through this code (${count} experiments a case, seed ${seed}): ${outcome}.`;
}

const broken = (text: string): string[] =>
  [...text.matchAll(/^Outside the limits:\n\n((?:- .*\n)+)/gm)].flatMap(([, lines]) =>
    lines
      .trimEnd()
      .split('\n')
      .map((line) => line.slice(2)),
  );

function missSaid(line: string): string {
  for (const [pattern, said] of misses) {
    const found = pattern.exec(line);
    if (found !== null) return said(...found.slice(1));
  }
  throw new Error(`no words for "${line}": add them to scripts/reference/simulated.ts`);
}

/** Families within single strata that miss their goal, put together. @param lines outside the limits */
function withinStrata(lines: readonly string[]): string[] {
  const over = lines.flatMap((line) => [withinLine.exec(line) ?? []].filter(({ length }) => length > 0));
  if (over.length === 0) return [];
  const found = over.map(([, , percent]) => percent);
  const worst = Math.max(...found.map(Number));
  const runs = [...new Set(over.map(([, count]) => count))];
  const each = found.map((percent) => `in ${percent} %`).join(', ');
  return [
    `within single strata with ${listed(runs, 'or')} runs of each, an interval misses in up to ${worst.toFixed(1)} % of studies (${each}; goal: at most ${over[0][3]} %)`,
  ];
}

/** What a hump over the runs costs where a straight drift alone is taken out. */
function humps(text: string): string[] {
  const rows = [...text.matchAll(/^\| hump of (\d+ %) +\| +(\d+) \| +([\d.]+) \([^)]*\) \| +([\d.]+) \|$/gm)];
  const few = rows.filter(([, , runs]) => Number(runs) < 6);
  if (few.length === 0) return [];
  const shown = few.map(([, , runs, , percent]) => `${percent} % of studies with ${runs} runs of each`);
  const coverage = Math.min(...few.map(([, , , percent]) => Number(percent)));
  return [
    `under 6 runs of each a hump of ${few[0][1]} over the day, which no straight drift takes out, widens them until ${coverage} % hold the true change, and a reduction of 8 % is shown in only ${listed(shown, 'and')}`,
  ];
}
