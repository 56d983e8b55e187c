import { noise, recordingOf } from './notebook.ts';

/** Which way is up: one of six. */
export const faces = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
] as const;

/** A still recording of a sensor with these errors, gravity acting along a direction, in g. */
export function still(
  acting: readonly number[],
  offsets: readonly number[] = [0, 0, 0],
  sensitivities: readonly number[] = [1, 1, 1],
): string {
  const hiss = noise(11);
  const axis = (k: number) => (): number => offsets[k] + sensitivities[k] * acting[k] + 0.001 * hiss();
  return recordingOf({ 'x (g)': axis(0), 'y (g)': axis(1), 'z (g)': axis(2) }, { seconds: 4, rate: 100 });
}

/** Each face up in turn, tilted by so many degrees towards another axis. */
export const tiltedFaces = (degrees: number): number[][] =>
  faces.map((face, k) => {
    const angle = ((k % 2 === 0 ? 1 : -1) * degrees * Math.PI) / 180;
    return [0, 1, 2].map((axis) => face[axis] * Math.cos(angle) + face[(axis + 1) % 3] * Math.sin(angle));
  });

const named = (name: string, texts: readonly string[]): Record<string, string> =>
  Object.fromEntries(texts.map((text, k) => [`still/${name}-${k + 1}.csv`, text]));

/** Still positions for the reference's examples. */
export const exampleStills: Readonly<Record<string, string>> = {
  ...named(
    'six',
    tiltedFaces(0.5).map((acting) => still(acting, [0.02, -0.03, 0.01], [1.01, 0.99, 1.02])),
  ),
  ...named(
    'tilted',
    tiltedFaces(8).map((acting) => still(acting)),
  ),
  'still/oblique.csv': still([0.7, 0, 0.714]),
};
