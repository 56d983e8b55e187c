import type { FileIdentity, Files } from '../values/ports.ts';

/** The files as they were when a run first looked at each: what is read are the bytes that were hashed then, or a fault. */
export function pinned(files: Files): Files {
  const known = new Map<string, Promise<FileIdentity>>();
  const identify = (path: string): Promise<FileIdentity> => {
    let identity = known.get(path);
    if (identity === undefined) known.set(path, (identity = files.identify(path)));
    return identity;
  };
  return {
    expand: (pattern, of) => files.expand(pattern, of),
    identify,
    // Of a file that can't be hashed its reading says why.
    open: async (path) => files.open(path, await identify(path).catch(() => undefined)),
  };
}
