import { readFileSync } from 'node:fs';
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import type { Faces } from './fonts.ts';
import { withResolution } from './resolution.ts';

let started: Promise<void> | undefined;

/**
 * A drawing as a PNG of so many px, which says its resolution in dots per inch.
 * @param resvg path of what draws it
 */
export async function pngOf(
  svg: string,
  { width, dpi, faces, resvg }: { width: number; dpi: number; faces: Faces; resvg: string },
): Promise<Uint8Array> {
  started ??= initWasm(readFileSync(resvg));
  await started;
  const drawing = new Resvg(svg, {
    fitTo: { mode: 'width', value: width },
    font: { fontBuffers: [faces.regular, faces.bold], defaultFontFamily: faces.family },
  });
  try {
    const picture = drawing.render();
    try {
      return withResolution(picture.asPng(), dpi);
    } finally {
      picture.free();
    }
  } finally {
    drawing.free();
  }
}
