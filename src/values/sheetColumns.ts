/** A header without its unit, in lower case: `speed (m/s)` is `speed`. */
export const bareHeader = (header: string): string =>
  header
    .replace(/\s*[([][^()[\]]*[)\]]\s*$/, '')
    .trim()
    .toLowerCase();

/** A cell of a row by the column's name without its unit. */
export function factOf(facts: Readonly<Record<string, string>>, name: string): string | undefined {
  const header = Object.keys(facts).find((one) => bareHeader(one) === name.toLowerCase());
  return header === undefined ? undefined : facts[header];
}

const unitInHeader = /[([]\s*([^()[\]]*?)\s*[)\]]\s*$/;

/** The unit that stands in brackets after a header; empty where there is none. */
export const unitOfHeader = (header: string): string => unitInHeader.exec(header)?.[1] ?? '';
