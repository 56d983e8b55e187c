import { execFileSync, spawnSync } from 'node:child_process';

export const hasGit = (): boolean => spawnSync('git', ['--version']).status === 0;

export function gitIn(folder: string, ...args: string[]): void {
  execFileSync('git', ['-C', folder, ...args], { stdio: 'ignore' });
}

/** Commits all that lies in the folder, at a time in s since 1970. */
export function commitAll(folder: string, at: number): void {
  gitIn(folder, 'add', '.');
  const date = `${at} +0000`;
  const who = ['-c', 'user.name=a', '-c', 'user.email=a@b.invalid', '-c', 'commit.gpgSign=false'];
  execFileSync('git', ['-C', folder, ...who, 'commit', '-qm', 'x'], {
    env: { ...process.env, GIT_COMMITTER_DATE: date, GIT_AUTHOR_DATE: date },
  });
}
