import { orderText, sheetToFill } from '../words/design.ts';
import { some, type Presenter } from './kind.ts';

/** The order as it is to be ridden, what a steady drift would do to it, and the run sheet to be filled in. */
export const presentOrder: Presenter<'order'> = (value) =>
  some(
    { type: 'text', text: orderText(value) },
    value.sheet === undefined ? undefined : { type: 'text', text: sheetToFill },
    value.sheet === undefined ? undefined : { type: 'text', style: 'verbatim', text: value.sheet.trimEnd() },
  );
