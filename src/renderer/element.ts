/** An element with a class and contents; text becomes text, never markup. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  className: string,
  ...contents: readonly (string | Node)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  if (className !== '') made.className = className;
  made.append(...contents);
  return made;
}
