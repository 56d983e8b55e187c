// The licences of all that is bundled and not ours, from what the bundler says that it put in.
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { licenceNames, licenceTexts } from './licences.mjs';

/** Where the build puts them. */
export const noticesFile = 'dist/ThirdPartyNotices.txt';

/** Folder of the package that a file belongs to: the innermost, for a package may bring its own copy of another. */
const packageFolder = /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/;

/** Fonts that lie beside the bundles and go into reports and figures, and where their licence is. */
const fonts = { 'Arimo (OFL-1.1)': 'media/fonts/OFL.txt' };

/**
 * One text with each package's name, version and whole licence, the notice of each of our own files that is a port of
 * another's work, and the licences of the fonts. Fails for a package that states none.
 */
export function noticesOf(metafiles, root) {
  const inputs = metafiles.flatMap(({ inputs }) => Object.keys(inputs));
  const folders = new Set(inputs.flatMap((path) => packageFolder.exec(path)?.[0] ?? []));
  const packages = [...folders].map((folder) => packageIn(resolve(root, folder)));
  packages.sort((a, b) => (a.title < b.title ? -1 : 1));
  const byText = new Map();
  const others = [...new Set(inputs)].sort().flatMap((path) => portIn(path, root));
  for (const [title, path] of Object.entries(fonts)) others.push({ title, text: textOf(resolve(root, path)) });
  for (const { title, text } of [...packages, ...others])
    byText.set(text, new Set([...(byText.get(text) ?? []), title]));
  const parts = [...byText].map(([text, titles]) => `${[...titles].join('\n')}\n\n${text}\n`);
  return `Washboard contains the following works of others, under the licences below their names.\n\n${parts.join(`\n${'-'.repeat(80)}\n\n`)}`;
}

/** Of a file of ours that begins with another's copyright, that notice: what it says has to go along, and the bundler drops it. */
function portIn(path, root) {
  if (!path.startsWith('src/')) return [];
  const notice = /^\/\*\n((?: \*.*\n)+) \*\//.exec(textOf(resolve(root, path)) + '\n')?.[1];
  if (notice === undefined || !/copyright/i.test(notice)) return [];
  return [{ title: `In ${path}`, text: notice.replace(/^ \* ?/gm, '').trim() }];
}

const textOf = (path) => readFileSync(path, 'utf8').replace(/\r\n?/g, '\n').trim();

function packageIn(folder) {
  const { name, version, license: stated } = JSON.parse(readFileSync(resolve(folder, 'package.json'), 'utf8'));
  const license = stated ?? licenceNames[name];
  const files = readdirSync(folder).filter((file) => /^(?:licen[cs]e|copying|notice)/i.test(file));
  const known = Object.hasOwn(licenceTexts, name) ? licenceTexts[name] : undefined;
  if ((files.length === 0 && known === undefined) || typeof license !== 'string')
    throw new Error(`${name} is bundled and states no licence: add its text to the build, or leave the package out.`);
  const texts = files.sort().map((file) => textOf(resolve(folder, file)));
  return { title: `${name} ${version} (${license})`, text: files.length === 0 ? known : texts.join('\n\n') };
}
