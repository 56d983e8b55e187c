import { execFileSync, spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { hostname, userInfo } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** How a job, or each task of an array, ended. */
export interface Ended {
  /** Number of the task, 0 where the job is no array. */
  readonly task: number;
  readonly state: string;
  readonly exitCode: number;
}

/** A Slurm of one node that belongs to a test: any user may start it, without systemd and without control groups. */
export interface OneNodeSlurm {
  /** Hands in a job and gives its number. */
  submit(options: readonly string[], command: string): number;
  /** Waits until a job, or each task of an array, is at its end. */
  ended(job: number): Promise<Ended[]>;
  stop(): Promise<void>;
}

/** Debian keeps the daemons where only root looks. */
const path = `${process.env.PATH}:/usr/sbin:/usr/local/sbin`;
const programs = ['sbatch', 'scontrol', 'slurmctld', 'slurmd', 'munged'];

/** Whether all programs of Slurm and MUNGE are there. */
export const hasSlurm = (): boolean =>
  programs.every(
    (name) => spawnSync('sh', ['-c', `command -v ${name}`], { env: { ...process.env, PATH: path } }).status === 0,
  );

/** Starts Slurm with all of its state in a folder. Throws where its node is not ready in half a minute. @param cores how many tasks at once */
export async function startSlurm(state: string, cores: number): Promise<OneNodeSlurm> {
  const munge = join(state, 'munge');
  mkdirSync(munge, { recursive: true, mode: 0o700 });
  for (const folder of ['control', 'node']) mkdirSync(join(state, folder), { recursive: true });
  const conf = join(state, 'slurm.conf');
  writeFileSync(join(munge, 'key'), randomBytes(1024), { mode: 0o400 });
  const [control, node] = [await freePort(), await freePort()];
  writeFileSync(conf, configuration(state, cores, control, node));
  const env = { ...process.env, PATH: path, SLURM_CONF: conf };
  const socket = join(munge, 'munge.socket');
  const own = (kind: string): string => `--${kind}-file=${join(munge, kind)}`;
  const mungeOptions = ['--foreground', '--force', `--key-file=${join(munge, 'key')}`, `--socket=${socket}`];
  const children = [
    spawn('munged', [...mungeOptions, own('pid'), own('log'), own('seed')], { env, stdio: 'ignore' }),
    spawn('slurmctld', ['-D', '-i', '-f', conf], { env, stdio: 'ignore' }),
    spawn('slurmd', ['-D', '-f', conf], { env, stdio: 'ignore' }),
  ];
  const scontrol = (...args: readonly string[]): string =>
    spawnSync('scontrol', args, { env, encoding: 'utf8', timeout: 20_000 }).stdout;
  const stop = async (): Promise<void> => {
    for (const child of children.toReversed()) await ended(child);
    rmSync(state, { recursive: true, force: true });
  };
  for (let tries = 0; !/\bState=IDLE\b/.test(scontrol('show', 'node', '-o')); tries++) {
    if (tries === 150) {
      await stop();
      throw new Error(`The node of Slurm is not ready: ${scontrol('show', 'node', '-o')}`);
    }
    await pause(200);
  }
  return {
    submit: (options, command) =>
      Number(execFileSync('sbatch', ['--parsable', ...options, '--wrap', command], { env, encoding: 'utf8' })),
    ended: async (job) => {
      for (;;) {
        const jobs = scontrol('show', 'job', String(job), '-o')
          .split('\n')
          .filter((line) => line.trim() !== '');
        if (jobs.length > 0 && !jobs.some((line) => running.test(line))) return jobs.map(readJob);
        await pause(200);
      }
    },
    stop,
  };
}

const running = /\bJobState=(PENDING|RUNNING|COMPLETING|CONFIGURING|SUSPENDED)\b/;

const readJob = (line: string): Ended => ({
  task: Number(/\bArrayTaskId=(\d+)/.exec(line)?.[1] ?? 0),
  state: /\bJobState=(\w+)/.exec(line)?.[1] ?? '',
  exitCode: Number(/\bExitCode=(\d+):/.exec(line)?.[1]),
});

/** A node that shows as many cores as are asked for, whatever the machine has (slurm.conf(5): `config_overrides`). */
function configuration(state: string, cores: number, controlPort: number, nodePort: number): string {
  const [host, user] = [hostname().split('.')[0], userInfo().username];
  return `ClusterName=test
SlurmctldHost=${host}(127.0.0.1)
SlurmctldPort=${controlPort}
SlurmdPort=${nodePort}
SlurmUser=${user}
SlurmdUser=${user}
AuthType=auth/munge
AuthInfo=socket=${state}/munge/munge.socket
CredType=cred/munge
StateSaveLocation=${state}/control
SlurmdSpoolDir=${state}/node
SlurmctldPidFile=${state}/control.pid
SlurmdPidFile=${state}/node.pid
SlurmctldLogFile=${state}/control.log
SlurmdLogFile=${state}/node.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
MpiDefault=none
MailProg=/bin/true
ReturnToService=2
SlurmdParameters=config_overrides
NodeName=${host} NodeAddr=127.0.0.1 CPUs=${cores} RealMemory=2000 State=UNKNOWN
PartitionName=all Nodes=${host} Default=YES State=UP
`;
}

/** A port of this machine that nobody listens at. */
const freePort = (): Promise<number> =>
  new Promise((found, failed) => {
    const server = createServer();
    server.once('error', failed);
    server.listen(0, '127.0.0.1', () => {
      const at = server.address();
      server.close(() => (typeof at === 'object' && at !== null ? found(at.port) : failed(new Error('no port'))));
    });
  });

/** Ends a daemon, by force after ten seconds. */
async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const gone = new Promise<void>((done) => child.once('exit', () => done()));
  child.kill('SIGTERM');
  const late = setTimeout(() => child.kill('SIGKILL'), 10_000);
  await gone;
  clearTimeout(late);
}
