/** A picture of an SVG as a PNG, of a size in px. */
export async function pngOf(svg: string, width: number, height: number): Promise<Blob> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [width, height];
  canvas.getContext('2d')?.drawImage(image, 0, 0, width, height);
  const png = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (png === null) throw new Error(`a picture of ${width} by ${height} px is too large`);
  return png;
}

/** The bytes of a file in base64, by which alone they come whole to the editor. */
export function base64Of(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve((reader.result as string).replace(/^[^,]*,/, '')));
    reader.addEventListener('error', () => reject(new Error('the picture could not be read')));
    reader.readAsDataURL(blob);
  });
}

/** Pixels of a copied picture for each of the screen. */
const sharpness = 2;

/** Puts a chart as it is shown into the clipboard. */
export async function copyPicture(svg: SVGSVGElement): Promise<void> {
  const { width, height } = svg.getBoundingClientRect();
  const copy = svg.cloneNode(true) as SVGSVGElement;
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  const png = pngOf(copy.outerHTML, Math.round(width * sharpness), Math.round(height * sharpness));
  // The picture may come later than the click: the clipboard waits for it.
  await navigator.clipboard.write([new ClipboardItem({ 'image/png': png })]);
}
