import PDFDocument from 'pdfkit';
import svgToPdf from 'svg-to-pdfkit';
import type { Faces } from './fonts.ts';

/** A figure on its page, in points. */
export interface PageSize {
  readonly width: number;
  readonly height: number;
}

/**
 * A drawing as a PDF of one page of its size: lines stay lines, and text is text in the embedded parts of the font. The same
 * drawing gives the same bytes: no date is written.
 */
export function pdfOf(svg: string, { width, height }: PageSize, faces: Faces, title: string): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const document = new PDFDocument({
      size: [width, height],
      margin: 0,
      font: Buffer.from(faces.regular),
      info: { Title: title, Producer: 'Washboard', Creator: 'Washboard', CreationDate: new Date(0) },
    });
    // It went into the file's mark, which would otherwise be another each time; as a date it would be wrong, and is not written.
    Object.defineProperty(document.info, 'CreationDate', { enumerable: false });
    const pieces: Uint8Array[] = [];
    document.on('data', (piece: Uint8Array) => void pieces.push(piece));
    document.on('end', () => resolve(new Uint8Array(Buffer.concat(pieces))));
    document.on('error', reject);
    document.registerFont('regular', Buffer.from(faces.regular));
    document.registerFont('bold', Buffer.from(faces.bold));
    svgToPdf(document, solidLines(svg), 0, 0, {
      width,
      height,
      assumePt: true,
      preserveAspectRatio: 'xMinYMin meet',
      fontCallback: (_family, bold) => (bold ? 'bold' : 'regular'),
      warningCallback: () => undefined,
    });
    document.end();
  });
}

/** A dash without a gap is a solid line, and would be drawn as thousands of short ones. */
const solidLines = (svg: string): string => svg.replaceAll(/ stroke-dasharray="1,0"/g, '');
