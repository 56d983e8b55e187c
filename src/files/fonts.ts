import { readFileSync } from 'node:fs';
import { printFont } from '../charts/printFont.ts';
import { success, type Result } from '../result/result.ts';
import { mediaPath } from './assets.ts';
import { refuse } from './messages.ts';

/** The faces of a font as files, and the family's name. */
export interface Faces {
  readonly family: string;
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

/** The font that is shipped. */
export const ownFaces = (): Faces => ({
  family: printFont,
  regular: readFileSync(mediaPath('fonts/Arimo-Regular.ttf')),
  bold: readFileSync(mediaPath('fonts/Arimo-Bold.ttf')),
});

/** A font from its files; its family is the one that the regular face's own table of names has, unless said. */
export function facesFrom(regular: string, bold: string, family: string | undefined): Result<Faces> {
  const faces: Uint8Array[] = [];
  for (const path of [regular, bold]) {
    const bytes = contentsOf(path);
    if (bytes === undefined || familyIn(bytes) === undefined) return refuse('figures.font-file', { path });
    faces.push(bytes);
  }
  return success({ family: family ?? familyIn(faces[0]) ?? printFont, regular: faces[0], bold: faces[1] });
}

function contentsOf(path: string): Uint8Array | undefined {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
}

/** The family's name in a font's table `name` (ISO/IEC 14496-22, 5.2.6), of a TrueType or OpenType file; undefined of no font. */
export function familyIn(bytes: Uint8Array): string | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    if (![0x00010000, 0x4f54544f, 0x74727565].includes(view.getUint32(0))) return undefined;
    for (let entry = 12; entry < 12 + 16 * view.getUint16(4); entry += 16) {
      // `name`
      if (view.getUint32(entry) === 0x6e616d65) return familyAt(view, view.getUint32(entry + 8));
    }
    return undefined;
  } catch {
    // An offset that leads out of the file.
    return undefined;
  }
}

const familyName = 1;
const windows = 3;

function familyAt(view: DataView, table: number): string | undefined {
  const texts = table + view.getUint16(table + 4);
  for (let record = table + 6; record < table + 6 + 12 * view.getUint16(table + 2); record += 12) {
    if (view.getUint16(record) !== windows || view.getUint16(record + 6) !== familyName) continue;
    const [length, offset] = [view.getUint16(record + 8), view.getUint16(record + 10)];
    const letters = Array.from({ length: length / 2 }, (_, at) => view.getUint16(texts + offset + 2 * at));
    return String.fromCharCode(...letters);
  }
  return undefined;
}
