import type { FileIdentity, Files, History, ReadRecording, WantedRecording, Watch } from '../values/ports.ts';

/** Files as they were when a run first looked at each. */
export interface PinnedFiles extends Files {
  /**
   * Reads recordings of whose bytes nothing is known before anybody asks for them, so that each file is read once for
   * its hash and its samples. Those that are known already wait for whether their samples are needed at all.
   */
  ahead(wanted: readonly WantedRecording[], watch: Watch): Promise<void>;
  /** Whether a recording is being read ahead, or was, and nobody has taken it yet. */
  isAtHand(wanted: WantedRecording): boolean;
}

/** The files as they were when a run first looked at each: what is read are the bytes that were hashed then, or a fault. */
export function pinned(files: Files): PinnedFiles {
  const known = new Map<string, Promise<FileIdentity>>();
  const settled = new Map<string, FileIdentity>();
  const atHand = new Map<string, Promise<ReadRecording>>();

  const pin = (path: string, identity: Promise<FileIdentity>): Promise<FileIdentity> => {
    known.set(path, identity);
    // Who asks for the identity of a file that can't be read is told.
    identity.then(
      (found) => settled.set(path, found),
      () => undefined,
    );
    return identity;
  };
  const identify = (path: string): Promise<FileIdentity> => known.get(path) ?? pin(path, files.identify(path));

  async function ahead(wanted: readonly WantedRecording[], watch: Watch): Promise<void> {
    if (files.read === undefined) return;
    const unseen = wanted.filter(({ path }) => !known.has(path));
    const identities = await Promise.all(unseen.map(({ path }) => knownOf(files, path)));
    for (const [i, identity] of identities.entries())
      if (identity !== undefined) void pin(unseen[i].path, Promise.resolve(identity));
    const fresh = [...new Map(unseen.map((one) => [one.path, one])).values()].filter(({ path }) => !known.has(path));
    for (const [i, reading] of files.read(fresh, watch).entries()) {
      atHand.set(keyOf(fresh[i]), reading);
      const { path } = fresh[i];
      void pin(
        path,
        reading.then(({ identity }) => identity ?? (watch.cancelled() ? unknown(path) : files.identify(path))),
      );
    }
  }

  function read(wanted: readonly WantedRecording[], watch: Watch): Promise<ReadRecording>[] {
    const rest: WantedRecording[] = [];
    const taken = wanted.map((one) => {
      const key = keyOf(one);
      const reading = atHand.get(key);
      // Its samples are handed on: the next who asks reads anew.
      atHand.delete(key);
      if (reading === undefined) rest.push({ ...one, identity: settled.get(one.path) ?? one.identity });
      return reading;
    });
    const others = files.read?.(rest, watch) ?? [];
    let next = 0;
    return taken.map((reading) => reading ?? others[next++]);
  }

  return {
    expand: askedOnce(files),
    identify,
    ahead,
    isAtHand: (wanted) => atHand.has(keyOf(wanted)),
    ...(files.read === undefined ? {} : { read }),
    ...(files.densities === undefined ? {} : { densities: (wanted, watch) => files.densities!(wanted, watch) }),
    // Of a file that can't be hashed its reading says why.
    open: async (path) => files.open(path, await identify(path).catch(() => undefined)),
  };
}

/** A history that tells a run once where the project stands, however long the run takes. */
export function pinnedHistory(history: History): History {
  let head: Promise<string | undefined> | undefined;
  return {
    head: () => (head ??= history.head()),
    textSince: (text) => history.textSince(text),
    firstOf: (paths) => history.firstOf(paths),
  };
}

/** Which files a name stands for: it is asked for the key of a call, for what it reads ahead and when it is computed. */
function askedOnce(files: Files): Files['expand'] {
  const expanded = new Map<string, ReturnType<Files['expand']>>();
  return (pattern, of) => {
    const key = JSON.stringify([pattern, of]);
    const found = expanded.get(key) ?? files.expand(pattern, of);
    expanded.set(key, found);
    return found;
  };
}

const knownOf = async (files: Files, path: string): Promise<FileIdentity | undefined> =>
  files.known?.(path).catch(() => undefined);

const keyOf = ({ path, options, channels }: WantedRecording): string => JSON.stringify([path, options, channels]);

const unknown = (path: string): Promise<never> => Promise.reject(new Error(`${path} was not read to its end`));
