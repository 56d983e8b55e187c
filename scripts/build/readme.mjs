/**
 * A text of Markdown without its pictures, and with the words alone of its links, where they lead to files beside it.
 * @param {string} text
 */
export const withoutNeighbours = (text) =>
  text.replace(/^!\[[^\]]*\]\((?!\w+:)[^)]*\)\n\n?/gm, '').replace(/\[([^\]]*)\]\((?!\w+:|#)[^)]*\)/g, '$1');
