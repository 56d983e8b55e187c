/** The few words of these libraries that are used here; they bring no types of their own, or ones that need more than Node. */
declare module 'pdfkit' {
  import type { Readable } from 'node:stream';
  export default class PDFDocument extends Readable {
    constructor(options: {
      readonly size: readonly [width: number, height: number];
      readonly margin: number;
      readonly font: Buffer;
      readonly info: Readonly<Record<string, string | Date>>;
    });
    readonly info: { CreationDate?: Date };
    registerFont(name: string, font: Buffer): this;
    end(): void;
  }
}
declare module 'svg-to-pdfkit' {
  export default function svgToPdf(
    document: unknown,
    svg: string,
    x: number,
    y: number,
    options: {
      readonly width: number;
      readonly height: number;
      readonly assumePt: boolean;
      readonly preserveAspectRatio: string;
      readonly fontCallback: (family: string, bold: boolean) => string;
      readonly warningCallback: (warning: string) => void;
    },
  ): void;
}
