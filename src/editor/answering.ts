import { answerTo, type FilesAnswer, type FilesAsk } from '../disk/asked.ts';
import { editorFiles } from './editorFiles.ts';

/** What the editor's file system answers to what an engine asks. */
export const answerBy = (ask: FilesAsk): Promise<FilesAnswer> => answerTo(ask, editorFiles(ask.base));
