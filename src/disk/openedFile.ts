import { closeSync, fstatSync, openSync, promises as fs, readSync, type BigIntStats } from 'node:fs';

/** A file that is open to be read; each call throws what the system refuses, or its promise fails with it. */
export interface OpenedFile {
  stat(): BigIntStats | Promise<BigIntStats>;
  /** Reads bytes from a place on to the front of a buffer; gives how many there were. */
  read(buffer: Uint8Array, length: number, at: number): number | Promise<number>;
  close(): void | Promise<void>;
}

/** Opens a file for reading. */
export type Opening = (absolute: string) => OpenedFile | Promise<OpenedFile>;

/** Opens a file in a thread that has other things to do, which go on while the system works. */
export const whileOthersWork: Opening = async (absolute) => {
  const handle = await fs.open(absolute, 'r');
  return {
    stat: () => handle.stat({ bigint: true }),
    read: async (buffer, length, at) => (await handle.read(buffer, 0, length, at)).bytesRead,
    close: () => handle.close(),
  };
};

/** Opens a file in a thread that has nothing else to do: it waits for each call, which spares a change of threads and back. */
export const blocking: Opening = (absolute) => {
  const file = openSync(absolute, 'r');
  return {
    stat: () => fstatSync(file, { bigint: true }),
    read: (buffer, length, at) => readSync(file, buffer, 0, length, at),
    close: () => closeSync(file),
  };
};
