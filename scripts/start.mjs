// The main job on the sample study, from a fresh clone: builds, runs it on the command line, says how to go on.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const study = 'samples/seat-pad.washboard.md';
const run = (command, args) => {
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: 'inherit' });
  if (error) throw error;
  if (status !== 0) process.exit(status ?? 1);
};
run(process.execPath, ['scripts/build.mjs']);
console.log(`\nRunning ${study}\n`);
run(process.execPath, ['dist/washboard.mjs', 'run', study]);
console.log(`That was ${study}, run without an editor. To see it with its charts:

  npm run editor      serves a Visual Studio Code with this extension and the samples open
  npm run package     makes a .vsix to install in your own Visual Studio Code

To run a notebook of your own:  node dist/washboard.mjs run PATH/TO/NOTEBOOK.washboard.md`);
