import { deflateSync } from 'node:zlib';

/** A picture of 4 bytes a px: red, green, blue and opacity. */
export interface Pixels {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

type Colour = readonly [number, number, number, number];

/** A PNG of at most so many colours: charts and screens have few that matter, and then take a third of the room. */
export function paletteImage({ data, width, height }: Pixels, colours: number): Uint8Array {
  const counts = new Map<number, number>();
  const pixels = new Uint32Array(data.buffer, data.byteOffset, width * height);
  for (const pixel of pixels) counts.set(pixel, (counts.get(pixel) ?? 0) + 1);
  const palette = paletteOf(counts, colours);
  const nearest = new Map([...counts.keys()].map((pixel) => [pixel, nearestOf(bytesOf(pixel), palette)]));
  const rows = new Uint8Array(height * (width + 1));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) rows[y * (width + 1) + 1 + x] = nearest.get(pixels[y * width + x]) ?? 0;
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 3, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('PLTE', Buffer.from(palette.flatMap(([red, green, blue]) => [red, green, blue]))),
    chunk('tRNS', Buffer.from(palette.map(([, , , opacity]) => opacity))),
    chunk('IDAT', deflateSync(rows, { level: 9, memLevel: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

const bytesOf = (pixel: number): Colour => [pixel & 255, (pixel >>> 8) & 255, (pixel >>> 16) & 255, pixel >>> 24];

interface Counted {
  readonly colour: Colour;
  readonly count: number;
}

/** Median cut: the box with the most of pixels times spread is cut in two at its middle, until there are enough. */
function paletteOf(counts: ReadonlyMap<number, number>, colours: number): Colour[] {
  const boxes: Counted[][] = [[...counts].map(([pixel, count]) => ({ colour: bytesOf(pixel), count }))];
  while (boxes.length < colours) {
    const worst = boxes.reduce((most, box, n) => (weightOf(box) > weightOf(boxes[most]) ? n : most), 0);
    if (weightOf(boxes[worst]) === 0) break;
    const [box] = boxes.splice(worst, 1);
    const axis = widestOf(box).axis;
    const sorted = [...box].sort((a, b) => a.colour[axis] - b.colour[axis]);
    const cut = middleOf(sorted);
    boxes.push(sorted.slice(0, cut), sorted.slice(cut));
  }
  return boxes.map((box) => box.reduce((most, one) => (one.count > most.count ? one : most)).colour);
}

/** Where half of the pixels, by the root of their number, lie on either side; neither side is empty. */
function middleOf(sorted: readonly Counted[]): number {
  const half = sorted.reduce((sum, { count }) => sum + Math.sqrt(count), 0) / 2;
  let sum = 0;
  const found = sorted.findIndex(({ count }) => (sum += Math.sqrt(count)) >= half);
  return Math.min(Math.max(found, 1), sorted.length - 1);
}

function widestOf(box: readonly Counted[]): { axis: number; spread: number } {
  const spreads = [0, 1, 2, 3].map((axis) => {
    const values = box.map(({ colour }) => colour[axis]);
    return values.reduce((a, b) => Math.max(a, b)) - values.reduce((a, b) => Math.min(a, b));
  });
  const spread = Math.max(...spreads);
  return { axis: spreads.indexOf(spread), spread };
}

const weightOf = (box: readonly Counted[]): number =>
  box.length < 2 ? 0 : widestOf(box).spread * Math.sqrt(box.reduce((sum, { count }) => sum + Math.sqrt(count), 0));

function nearestOf(colour: Colour, palette: readonly Colour[]): number {
  const distances = palette.map((one) => one.reduce((sum, part, n) => sum + (part - colour[n]) ** 2, 0));
  return distances.indexOf(Math.min(...distances));
}

function chunk(type: string, content: Uint8Array): Uint8Array {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), content]);
  const whole = Buffer.alloc(body.length + 8);
  whole.writeUInt32BE(content.length, 0);
  whole.set(body, 4);
  whole.writeUInt32BE(checksum(body), body.length + 4);
  return whole;
}

/** CRC-32 (ISO/IEC 15948, annex D). */
function checksum(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
