import type { TakingAsked, Told } from '../../charts/handleMessages.ts';

/** How long a page may take to draw a picture, in ms. */
const patience = 60_000;

type Answer = Extract<TakingAsked, { type: 'rasterised' }>;

const waiting = new Map<number, (answer: Answer) => void>();
let count = 0;

/** Has a page draw an SVG as a PNG of a size in px; an error says why it could not. */
export function rasterise(
  svg: string,
  width: number,
  height: number,
  post: (message: Told) => Thenable<boolean>,
): Promise<Uint8Array> {
  const id = ++count;
  return new Promise((resolve, reject) => {
    const end = (answer: Omit<Answer, 'type' | 'id'>): void => {
      clearTimeout(timer);
      waiting.delete(id);
      if (answer.png === undefined) reject(new Error(answer.failed ?? 'the page gave no picture'));
      else resolve(new Uint8Array(Buffer.from(answer.png, 'base64')));
    };
    const timer = setTimeout(() => end({ failed: 'the page did not answer' }), patience);
    waiting.set(id, end);
    void post({ type: 'rasterise', id, svg, width, height });
  });
}

export function rasterised(answer: Answer): void {
  waiting.get(answer.id)?.(answer);
}
