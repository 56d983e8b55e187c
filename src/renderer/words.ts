import type { RendererContext } from 'vscode-notebook-renderer';
import type { Told } from '../charts/handleMessages.ts';

/** By the English text what the reader's language has for it; the editor alone knows that language. */
let words: Readonly<Record<string, string>> = {};

/** Takes the words of the reader's language as they come. @param then is called when they have come */
export function hearWords(context: RendererContext<unknown>, then: () => void): void {
  context.onDidReceiveMessage?.((message: Told) => {
    if (message.type !== 'words') return;
    words = message.words;
    then();
  });
}

/** A text of a button or menu in the reader's language, with what is put in at `{0}`. */
export const said = (text: string, put = ''): string => (words[text] ?? text).replace('{0}', () => put);
