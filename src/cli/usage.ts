/** How each command is called, by its name. */
const parts: ReadonlyMap<string, string> = new Map([
  [
    'new',
    `  new FOLDER
      Begins a study in a folder from the recordings found there or in the first folder below that
      has some: study.washboard.md, or the next name that is free, with every step from the question
      to the claim as cells to be filled in. Exit code: 0; 2 if there is no such folder.`,
  ],
  [
    'run',
    `  run NOTEBOOK [--json] [--cell N] [--root DIR] [--jobs N] [--cache DIR | --no-cache]
      [--no-git] [--plan N | --share K/N | --collect]
      Runs the notebook and prints what its cells show.
      --json      one JSON document instead; run --schema prints its JSON Schema
      --cell N    only the Nth cell, counted from 1, with what it needs
      --root DIR  the project folder, in which all raw files must lie; otherwise the
                  nearest folder above the notebook with .git, else its own folder
      --jobs N    threads that read recordings, as many as there are cores unless said;
                  results are the same for any number
      --cache DIR where results are kept, in the user's cache folder unless said
      --no-cache  computes everything anew, and keeps nothing for the next run
      --plan N    shares the recordings out among N processes, on as many machines as share
                  the folder of --cache, and freezes that there
      --share K/N works on the Kth share and prints nothing; it may be repeated
      --collect   as run, from what the shares have kept; computes nothing of a recording
      --no-git    git is not asked, so that plans are not dated
      All commands that run a notebook take --jobs, --cache and --no-git; record, verify and
      changed always compute everything anew.
      Exit code: 0; 1 if a statement failed or a number in the prose differs; 2 for wrong usage,
      an unreadable notebook, no plan, or files that changed since; 3 if shares are missing, which
      are named; 75 if the system refused a share something, which may be tried again.`,
  ],
  [
    'record',
    `  record NOTEBOOK [--root DIR] [--force]
      Runs the notebook and writes NAME.record.json beside it: the SHA-256 of every raw
      file and every number of the results, one a line. Exit code as of run.`,
  ],
  [
    'verify',
    `  verify NOTEBOOK … [--root DIR]
      Runs each notebook again and holds it against its record.
      Exit code: 0 the same; 1 differs, with a line a difference, numbers in the prose too;
      2 no record.`,
  ],
  [
    'changed',
    `  changed NOTEBOOK [REVISION] [--root DIR]
      Runs the notebook and holds it against its record in git at a revision, the last commit
      unless said: verdicts and changes first, then raw files and all other figures, each as
      recorded, as it is now, and by how much. In the same order and words as verify.
      Exit code: 0 the same; 1 differs, with a line a difference; 2 no such record.`,
  ],
  [
    'numbers',
    `  numbers NOTEBOOK [--write] [--root DIR]
      Runs the notebook and holds each number of its prose that is followed by a comment like
      <!-- = bricks.change --> against the result, with the decimals that it has.
      --write     writes those that differ as they are now, and nothing else
      Exit code: 0 all agree, or do now; 1 otherwise.`,
  ],
  [
    'report',
    `  report NOTEBOOK [--answer] [--out FILE.html] [--root DIR] [--force]
      Runs the notebook and writes one self-contained HTML page: prose, cells, charts,
      tables, and the hashes of the raw files. Printed, it has pages of A4 or Letter.
      --answer    the short form: question, answer, main chart, methods and limits
      Exit code as of run.`,
  ],
  [
    'figures',
    `  figures NOTEBOOK --out DIR [--format svg,pdf,png] [--width 85mm] [--dpi N] [--size 8pt]
          [--font NAME] [--font-file REGULAR.ttf[,BOLD.ttf]] [--no-titles]
          [--theme print|light|dark] [--cell N] [--root DIR] [--force]
      Writes every chart of the notebook for print, called by the result's name and what the
      chart is. Each is laid out for its width, with type of the size that is said.
      --width W     60 to 400 mm; 170mm unless said
      --dpi N       of png; 600 unless said
      --size S      of the type at the axes, 6 to 14 pt; 7.5pt unless said
      --font NAME   the family named in svg; pdf and png need its files by --font-file, and
                    have Arimo embedded unless said
      --no-titles   title and description go into a text beside each figure
      --cell N      only the charts of the Nth cell, which is run with what it needs
      The notebook's front matter may say the same: "figures: width 85 mm, format pdf png,
      title off", or "figure NAME: width 170 mm" of one. Exit code as of run.`,
  ],
  [
    'tables',
    `  tables NOTEBOOK --out DIR [--format csv|parquet] [--root DIR] [--force]
      Writes every table of the notebook as a file called by the result's name, with units in
      the headings and figures in full; spectra with a row a bin of each run, comparisons with
      the level of each run beside them, all quantities in one. Exit code as of run.`,
  ],
  [
    'look',
    `  look FILE … [--time COLUMN] [--unit U] [--rate F] [--delimiter D] [--decimal M]
       [--skip N] [--scale X] [--sensor NAME,…] [--sentinel N,…] [--comment none]
       [--clock hh:mm|mm:ss] [--timezone Z]
      Shows how a logger's file is understood: layout, first rows beside the raw lines,
      rate, findings, and the load statement to paste into a notebook. The options
      override what is detected, as those of load do.
      Exit code: 0; 1 if a file can't be read; 2 for wrong usage.`,
  ],
  [
    'sheet',
    `  sheet FOLDER [--out FILE] [--force]
  sheet --runs N | --detect PERCENT --spread PERCENT  [--conditions A,B,…] [--out FILE] [--force]
      Makes a run sheet to be filled in: of the recordings in a folder, or of runs to be
      made in a balanced order, as many as are said or as the test needs.`,
  ],
  [
    'cache',
    `  cache [DIR] [--clear | --keep SIZE, --days N]
      Says where results are kept from one run to the next and how much that is, in the
      user's cache folder unless said; --clear removes them, --days those not used for
      so many days, and --keep (as in 20GB) what there is more, the oldest first.`,
  ],
]);

const heading = 'Usage: washboard COMMAND …';

/** How the command line is called. */
const usage = `${heading}

${[...parts.values()].join('\n\n')}

  A file that is there is replaced only if the same command made it; --force writes over any
  other one, and never over a notebook or its raw files. A run sheet may hold notes and is
  replaced by --force alone, which then goes over nothing but a run sheet.

  COMMAND --help prints the part on a command, --version the version.
`;

/** How one command is called; all of them without a name and for one that is none. */
export function usageOf(command = ''): string {
  const part = parts.get(command);
  return part === undefined ? usage : `${heading}\n\n${part}\n`;
}
