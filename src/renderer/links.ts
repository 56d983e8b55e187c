import type { LinkAsked } from '../charts/handleMessages.ts';
import type { TextPlace } from '../charts/output.ts';
import { element } from './element.ts';

/** Where a message leads: to the page about it, or to the text that it is about. */
export type Link = { readonly code: string } | { readonly at: TextPlace };

/** The event in which a link is followed. */
const linkEvent = 'washboard-link';

export function linkElement(text: string, className: string, link: Link): HTMLElement {
  const made = element('button', `washboard-link ${className}`, text);
  made.type = 'button';
  made.addEventListener('click', () =>
    made.dispatchEvent(new CustomEvent<Link>(linkEvent, { bubbles: true, detail: link })),
  );
  return made;
}

/** Follows the links of an output by the editor's help. @param idOf gives the id that the editor gave what is shown at the moment */
export function followLinks(root: HTMLElement, post: (asked: LinkAsked) => void, idOf: () => string | undefined): void {
  root.addEventListener(linkEvent, (event) => {
    const link = (event as CustomEvent<Link>).detail;
    const output = idOf();
    const asked: LinkAsked | undefined =
      'code' in link ? { type: 'page', ...link } : output === undefined ? undefined : { type: 'text', output, ...link };
    if (asked !== undefined) post(asked);
  });
}
