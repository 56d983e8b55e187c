import { AskedFiles } from '../../disk/asked.ts';
import { editorHost, unsavedHost } from '../../disk/editorHost.ts';
import { Service } from '../../engine/service.ts';
import type { Said, Told } from '../engineProgram.ts';

/** For so many ms nothing is let in between two steps. */
const breath = 30;

/** Serves an engine that needs nothing of a machine, in a worker or beside what asks it. @returns what takes in what it is told */
export function serve(say: (message: Said) => void): (message: Told) => void {
  const asked = new AskedFiles(say);
  let last = performance.now();
  const breathe = async (): Promise<void> => {
    if (performance.now() - last < breath) return;
    await new Promise((go) => setTimeout(go));
    last = performance.now();
  };
  const service = new Service(({ folder, root, saved, base }) => {
    if (saved === false || base === undefined) return { ...unsavedHost(), breathe };
    return { ...editorHost(asked.at(base), folder, root), breathe };
  }, say);
  return (message) => {
    if (message.type === 'files') asked.receive(message);
    else service.receive(message);
  };
}
