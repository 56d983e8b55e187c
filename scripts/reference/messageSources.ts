import { agreementPages } from '../../src/analysis/messages/agreementPages.ts';
import { calibrationPages } from '../../src/analysis/messages/calibrationPages.ts';
import { earlierPages } from '../../src/analysis/messages/earlierPages.ts';
import { evidencePages } from '../../src/analysis/messages/evidencePages.ts';
import { loggersPages } from '../../src/analysis/messages/loggersPages.ts';
import { planningPages } from '../../src/analysis/messages/planningPages.ts';
import { spectraPages } from '../../src/analysis/messages/spectraPages.ts';
import { messagePages } from '../../src/language/messagePages.ts';
import { readerPages } from '../../src/readers/messagePages.ts';
import type { ReaderExample } from '../../src/readers/messagePages/page.ts';
import type { MessagePage } from '../../src/result/pages.ts';
import { diskPages } from '../../src/disk/messagePages.ts';
import { notebookPages } from '../../src/notebook/messagePages.ts';
import { valuePages } from '../../src/values/messagePages.ts';
import { callPages, recordingPages, wordPages } from '../../src/verbs/messagePages.ts';
import { cell, verbatim } from './markdown.ts';

/** A code's page with its examples in Markdown. */
export type PrintedPage = MessagePage;

/** The pages of a room that speaks, by code. */
export interface MessageSource {
  readonly title: string;
  readonly intro: string;
  readonly pages: Readonly<Record<string, PrintedPage>>;
}

/** Pages with their examples printed. */
function printed<Example>(
  pages: Readonly<Record<string, Omit<MessagePage, 'wrong' | 'right'> & { wrong: Example; right: Example }>>,
  print: (example: Example) => string,
): MessageSource['pages'] {
  return Object.fromEntries(
    Object.entries(pages).map(([code, one]) => [code, { ...one, wrong: print(one.wrong), right: print(one.right) }]),
  );
}

/** An example that is wrong by its length is told by its ends. */
const shortened = (text: string): string => (text.length < 160 ? text : `${text.slice(0, 30)} … ${text.slice(-20)}`);

/** A cell of the language. */
const asCell = (text: string): string => cell(shortened(text));

/** A file and the line that loads it. */
const fileAndLine = ({ file, load }: ReaderExample): string => verbatim(`${file}\n\n${load}`);

/** Markdown as it stands, its own fences included. */
const indented = (text: string): string => text.replaceAll(/^/gm, '    ');

/** Every room's pages, in the order of the reference: a room that gets pages is put in here, and nowhere else. */
export const messageSources: readonly MessageSource[] = [
  {
    title: 'Messages',
    intro: 'What can be wrong with a notebook’s text, by the code that the editor shows and links to.',
    pages: printed(messagePages, asCell),
  },
  {
    title: 'Messages of a run',
    intro: 'What a cell may be told when it runs. Where the wrong example runs all the same, the message is a warning.',
    pages: printed(
      {
        ...planningPages,
        ...evidencePages,
        ...agreementPages,
        ...earlierPages,
        ...calibrationPages,
        ...loggersPages,
        ...wordPages,
        ...callPages,
        ...valuePages,
        ...recordingPages,
        ...spectraPages,
        ...diskPages,
      },
      cell,
    ),
  },
  {
    title: 'Messages on recordings',
    intro:
      'Why a file can’t be read, and what `load`, `check` and a look at a file say of one that was. Each example is a file, or what is worth showing of it (`…` stands for rows like those before), with the line that loads it.',
    pages: printed(readerPages, fileAndLine),
  },
  {
    title: 'Messages on notebooks',
    intro:
      'What is said of a notebook’s file as it is opened. Each example is its Markdown; `�` stands for bytes that are no text.',
    pages: printed(notebookPages, indented),
  },
];
