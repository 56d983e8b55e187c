/**
 * How far apart two colours look, to eyes of every kind: dichromacy simulated in linear RGB by the matrices of
 * Machado, Oliveira & Fernandes 2009 (IEEE Trans. Vis. Comput. Graph. 15(6), severity 1.0), the difference by
 * CIEDE2000 (Sharma, Wu & Dalal 2005, Color Res. Appl. 30(1)), the contrast by WCAG 2.2.
 */

export type Triple = readonly [number, number, number];

const apply = (matrix: readonly Triple[], [x, y, z]: Triple): Triple =>
  matrix.map((row) => row[0] * x + row[1] * y + row[2] * z) as unknown as Triple;

export const eyes: Readonly<Record<string, readonly Triple[]>> = {
  'full colour vision': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** `#rrggbb` to linear RGB, 0 to 1. */
export function linear(hex: string): Triple {
  const parts = [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255);
  return parts.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)) as unknown as Triple;
}

const toXyz: readonly Triple[] = [
  [0.4124564, 0.3575761, 0.1804375],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339, 0.119192, 0.9503041],
];
const white: Triple = [0.95047, 1, 1.08883];

/** CIE L*a*b* under D65 of linear RGB, as eyes of a kind see it. */
export function lab(rgb: Triple, eye: readonly Triple[]): Triple {
  const seen = apply(eye, rgb).map((part) => Math.min(1, Math.max(0, part))) as unknown as Triple;
  const [x, y, z] = apply(toXyz, seen).map((part, index) => {
    const share = part / white[index];
    return share > 216 / 24389 ? Math.cbrt(share) : ((24389 / 27) * share + 16) / 116;
  });
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const degrees = (angle: number): number => ((angle * 180) / Math.PI + 360) % 360;
const radians = (angle: number): number => (angle * Math.PI) / 180;

/** CIEDE2000: about 1 is the least that can be seen side by side. */
export function difference(first: Triple, second: Triple): number {
  const chroma = (Math.hypot(first[1], first[2]) + Math.hypot(second[1], second[2])) / 2;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7)));
  const [c1, c2] = [first, second].map(([, a, b]) => Math.hypot(a * stretch, b));
  const [h1, h2] = [first, second].map(([, a, b]) => (a === 0 && b === 0 ? 0 : degrees(Math.atan2(b, a * stretch))));
  const turn = c1 * c2 === 0 ? 0 : Math.abs(h2 - h1) <= 180 ? h2 - h1 : h2 - h1 + (h2 > h1 ? -360 : 360);
  const sum = h1 + h2;
  const hue = c1 * c2 === 0 ? sum : Math.abs(h1 - h2) <= 180 ? sum / 2 : sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
  const light = (first[0] + second[0]) / 2;
  const mean = (c1 + c2) / 2;
  const cosine = (factor: number, shift: number): number => Math.cos(radians(factor * hue + shift));
  const t = 1 - 0.17 * cosine(1, -30) + 0.24 * cosine(2, 0) + 0.32 * cosine(3, 6) - 0.2 * cosine(4, -63);
  const l = (second[0] - first[0]) / (1 + (0.015 * (light - 50) ** 2) / Math.sqrt(20 + (light - 50) ** 2));
  const c = (c2 - c1) / (1 + 0.045 * mean);
  const h = (2 * Math.sqrt(c1 * c2) * Math.sin(radians(turn / 2))) / (1 + 0.015 * mean * t);
  const rotation =
    -2 * Math.sqrt(mean ** 7 / (mean ** 7 + 25 ** 7)) * Math.sin(radians(60 * Math.exp(-(((hue - 275) / 25) ** 2))));
  return Math.sqrt(l ** 2 + c ** 2 + h ** 2 + rotation * c * h);
}

const luminance = (hex: string): number => apply(toXyz, linear(hex))[1];

export function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((first, second) => first - second);
  return (light + 0.05) / (dark + 0.05);
}
