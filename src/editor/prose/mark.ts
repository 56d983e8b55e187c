/** What stands behind a number to say what it is. */
export const markOf = (expression: string): string => `<!-- = ${expression} -->`;
