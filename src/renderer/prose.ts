import type { RendererApi, RendererContext } from 'vscode-notebook-renderer';
import type { MarkdownIt } from 'markdown-it';
import { asked } from './asked.ts';
import { proseKey, proseNumbers } from '../notebook/proseNumbers.ts';

/** What the editor's own renderer of Markdown offers. */
interface MarkdownRenderer extends RendererApi {
  extendMarkdownIt(extend: (markdown: MarkdownIt) => void): void;
}

/** By a number's key: as it would be written now, empty where it can't be told, and the sentence. */
type Differing = ReadonlyMap<string, { readonly now: string; readonly message: string }>;

interface Told {
  readonly type?: unknown;
  readonly differing?: readonly (readonly [key: string, now: string, message: string])[];
}

const markClass = 'washboard-number';

/** Puts a mark behind each number of the prose that says what it is, shown quietly while the number differs. */
export async function activate(context: RendererContext<unknown>): Promise<void> {
  const markdown = (await context.getRenderer('vscode.markdown-it-renderer')) as MarkdownRenderer | undefined;
  if (markdown === undefined) return;
  let differing: Differing = new Map();
  markdown.extendMarkdownIt((extended) => putMarks(extended, (key, mark) => fill(mark, differing.get(key))));
  const answered = asked(() => context.postMessage?.({ type: 'ready' }));
  context.onDidReceiveMessage?.((message: Told) => {
    answered();
    if (message.type !== 'numbers' || message.differing === undefined) return;
    differing = new Map(message.differing.map(([key, now, why]) => [key, { now, message: why }]));
    for (const mark of marksIn(document)) fill(mark, differing.get(mark.dataset['key'] ?? ''));
  });
}

/** Instead of each number's comment, which shows nothing, an element that is found again by the number's key. */
function putMarks(markdown: MarkdownIt, filled: (key: string, mark: HTMLElement) => void): void {
  markdown.core.ruler.push('washboard_numbers', ({ tokens }) => {
    for (const { type, content, children } of tokens) {
      if (type !== 'inline') continue;
      const numbers = proseNumbers(content);
      const comments = (children ?? []).filter(
        (child) => child.type === 'html_inline' && /^<!--\s*=/.test(child.content),
      );
      comments.forEach((comment, at) => {
        if (at < numbers.length) comment.meta = { washboard: proseKey(numbers[at]) };
      });
    }
  });
  const before = markdown.renderer.rules.html_inline;
  markdown.renderer.rules.html_inline = (tokens, index, options, env, self) => {
    const key = (tokens[index].meta as { washboard?: string } | null)?.washboard;
    if (key === undefined) return before(tokens, index, options, env, self);
    const mark = document.createElement('span');
    mark.className = markClass;
    mark.dataset['key'] = key;
    filled(key, mark);
    return mark.outerHTML;
  };
}

/** The mark: not equal to what it would be now, with the sentence for who points at it and who is read to. */
function fill(mark: HTMLElement, found: { readonly now: string; readonly message: string } | undefined): void {
  mark.hidden = found === undefined;
  mark.textContent = found === undefined ? '' : ` ≠ ${found.now === '' ? '?' : found.now}`;
  mark.title = found?.message ?? '';
  if (found === undefined) mark.removeAttribute('role');
  else mark.setAttribute('role', 'note');
  mark.setAttribute('aria-label', found?.message ?? '');
  mark.style.cssText =
    'color: var(--vscode-editorWarning-foreground, currentColor); font-size: 0.85em; white-space: nowrap; border-bottom: 1px dotted currentColor;';
}

/** Cells of prose are drawn each in a shadow root. */
function marksIn(root: Document | ShadowRoot): HTMLElement[] {
  const own = [...root.querySelectorAll<HTMLElement>(`.${markClass}`)];
  const within = [...root.querySelectorAll('*')].flatMap(({ shadowRoot }) =>
    shadowRoot === null ? [] : marksIn(shadowRoot),
  );
  return [...own, ...within];
}
