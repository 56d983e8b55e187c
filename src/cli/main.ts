import { beginReading } from './beginReading.ts';

beginReading(process.argv.slice(2));
// Behind that, which is to be the first that is done: the program takes several times as long to load.
await import('./program.ts');
