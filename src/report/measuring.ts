import { textMetrics } from 'vega-scenegraph';
import { printWidth } from '../charts/advances.ts';
import { printFont } from '../charts/printFont.ts';
import { screenWidth } from '../charts/screenWidth.ts';

/** Makes Vega use these widths, for there is no canvas that could measure. */
export function measureWithoutCanvas(): void {
  textMetrics.width = (item, text) => {
    const [written, size] = [text == null ? '' : `${text}`, item.fontSize ?? 11];
    const isPrint = item.font?.includes(printFont) === true;
    const width = isPrint ? printWidth(written, size, isBold(item.fontWeight)) : screenWidth(written, size);
    // What is longer than its limit is drawn cut.
    return item.limit !== undefined && item.limit > 0 ? Math.min(width, item.limit) : width;
  };
}

const isBold = (weight: number | string | undefined): boolean => weight === 'bold' || Number(weight) >= 600;
