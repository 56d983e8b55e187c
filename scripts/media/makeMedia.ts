/**
 * Draws the pictures of `media/`: `npx tsx scripts/media/makeMedia.ts` (needs a Chromium; CHROMIUM names it). Those of
 * the walkthrough are the sample study's own charts, as the tool makes them.
 */
import { readFileSync } from 'node:fs';
import { themes } from '../../src/charts/theme.ts';
import { present } from '../../src/charts/present.ts';
import type { ChartPart } from '../../src/charts/output.ts';
import { diskHost } from '../../src/disk/host.ts';
import { Engine } from '../../src/engine/engine.ts';
import type { StatementResult } from '../../src/engine/result.ts';
import { toSvg } from '../../src/report/svg.ts';
import { fileURLToPath } from 'node:url';
import { draw, type Picture } from './chromium.ts';
import { icon } from './icon.ts';

const root = new URL('../../', import.meta.url);
const media = new URL('media/', root);
const width = 640;

/** What each picture of the walkthrough shows: the n-th chart of the study, or the value of a name. */
const wanted: readonly {
  readonly file: string;
  readonly of: (result: StatementResult) => boolean;
  readonly nth?: number;
}[] = [
  { file: 'ride.png', of: ({ kind }) => kind === 'chart', nth: 0 },
  { file: 'densities.png', of: ({ kind }) => kind === 'chart', nth: 1 },
  { file: 'change.png', of: ({ name }) => name === 'bricks' },
];

async function study(): Promise<readonly StatementResult[]> {
  const folder = fileURLToPath(new URL('samples/', root));
  const text = readFileSync(new URL('samples/seat-pad.washboard.md', root), 'utf8');
  const cells = [...text.matchAll(/^```washboard\n(.*?)^```$/gms)].map((match) => match[1]);
  const watch = { cancelled: () => false, progress: () => undefined };
  const report = await new Engine(diskHost(folder, folder)).run({ cells, wanted: 'all' }, watch);
  if (!report.ok) throw new Error('the sample study fails; see `washboard run samples/seat-pad.washboard.md`');
  return report.results;
}

async function chartPicture(
  results: readonly StatementResult[],
  { file, of, nth = 0 }: (typeof wanted)[number],
): Promise<Picture> {
  const result = results.filter(of)[nth];
  const chart =
    result?.value &&
    present(result.value, result.name, []).parts.find((part): part is ChartPart => part.type === 'chart');
  if (!chart) throw new Error(`the study has no chart for ${file}`);
  const inner = await toSvg(chart, themes.light, width);
  const box = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(inner);
  if (!box) throw new Error(`the chart for ${file} does not say its size`);
  const [w, h] = [box[1], box[2]].map((side) => Math.ceil(Number(side)) + 32);
  // A card of its own ground, so that it reads on a dark page too.
  const svg = `<div style="width:${w}px;height:${h}px;box-sizing:border-box;padding:16px;border-radius:10px;background:${themes.light.background}">${inner}</div>`;
  return { svg, file: new URL(`walkthrough/${file}`, media), width: w, height: h, scale: 1.5 };
}

const results = await study();
const charts = await Promise.all(wanted.map((picture) => chartPicture(results, picture)));
await draw([{ svg: icon(), file: new URL('icon.png', media), width: 256, height: 256 }, ...charts]);
