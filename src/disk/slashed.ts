/** A path with forward slashes, whatever the system's are. */
export const slashed = (path: string): string => path.split('\\').join('/');
