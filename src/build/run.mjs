import { spawn } from 'node:child_process';
import { root } from './paths.mjs';

/**
 * Runs a program in the project's folder to its end, its output going where ours goes. Gives its exit code; a program that a signal ended counts as 1.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnOptions} [options]
 * @returns {Promise<number>}
 */
export function run(program, args, options = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd: root, stdio: 'inherit', ...options });
    child.once('error', reject);
    child.once('exit', (code) => resolve(code ?? 1));
  });
}

/**
 * Like run, for a program without which nothing goes on: throws unless it exits with 0.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnOptions} [options]
 */
export async function mustRun(program, args, options) {
  const code = await run(program, args, options);
  if (code !== 0) throw new Error(`${[program, ...args].join(' ')} ended with exit code ${code}`);
}

/**
 * Like run, but gives the output too, standard output and errors as they came.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnOptions} [options]
 * @returns {Promise<{ code: number, output: string }>}
 */
export function runQuietly(program, args, options = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd: root, ...options, stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    for (const stream of [child.stdout, child.stderr]) stream?.setEncoding('utf8').on('data', (text) => (output += text));
    child.once('error', reject);
    child.once('close', (code) => resolve({ code: code ?? 1, output }));
  });
}

/**
 * Works through jobs, at most so many at a time; the results stand in the order of the jobs.
 * @template Job, Result
 * @param {readonly Job[]} jobs
 * @param {number} atOnce
 * @param {(job: Job) => Promise<Result>} work
 * @returns {Promise<Result[]>}
 */
export async function inParallel(jobs, atOnce, work) {
  /** @type {Result[]} */
  const results = [];
  const queue = [...jobs.entries()];
  const worker = async () => {
    for (let next = queue.shift(); next; next = queue.shift()) results[next[0]] = await work(next[1]);
  };
  await Promise.all(Array.from({ length: atOnce }, worker));
  return results;
}
