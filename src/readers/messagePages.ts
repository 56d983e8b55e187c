import type { ReaderCode } from './messages.ts';
import { channelPages } from './messagePages/channels.ts';
import { checkPages } from './messagePages/checks.ts';
import { filePages } from './messagePages/file.ts';
import type { ReaderPage } from './messagePages/page.ts';
import { setPages } from './messagePages/set.ts';
import { textPages } from './messagePages/text.ts';
import { timePages } from './messagePages/time.ts';

/** A page of the reference for each code of the readers; a code without one does not compile. */
export const readerPages: Readonly<Record<ReaderCode, ReaderPage>> = {
  ...filePages,
  ...textPages,
  ...timePages,
  ...channelPages,
  ...checkPages,
  ...setPages,
};
