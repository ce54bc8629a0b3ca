import { version } from '../../package.json';
import { say, textOf } from '../base/messages';
import { nearest } from '../schema/nearest';
import { formatMustBe, readCommandLine } from './args';
import type { OptionName } from './args';
import { complain } from './complain';
import { processIo } from './io';
import type { ExitCode, Io } from './io';
import { speakAsIn } from './language';
import type { Verb } from './verb';
import { ahead } from './verbs/ahead';
import { calendar } from './verbs/calendar';
import { check } from './verbs/check';
import { due } from './verbs/due';
import { explain } from './verbs/explain';
import { fill } from './verbs/fill';
import { kin } from './verbs/kin';
import { skill } from './verbs/skill';
import { WrongUse } from './wrongUse';

const verbs: readonly Verb[] = [due, ahead, calendar, check, fill, explain, kin, skill];
const shared: readonly OptionName[] = ['now', 'format', 'help', 'version'];

/** Does what a command line asks for, in the language that the environment asks for. Never throws for anything that people or files can do wrong. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  speakAsIn(io.env);
  try {
    return await answer(argv, io);
  } catch (error) {
    if (!(error instanceof WrongUse)) throw error;
    complain(io, error.told);
    return 2;
  }
}

async function answer(argv: readonly string[], io: Io): Promise<ExitCode> {
  const line = readCommandLine(argv);
  if (line.options.version) {
    io.out.write(`${version}\n`);
    return 0;
  }
  const verb = line.verb === undefined ? undefined : verbNamed(line.verb);
  if (line.options.help) {
    io.out.write(`${textOf(say(verb === undefined ? 'cli.help' : `cli.help.${verb.name}`))}\n`);
    return 0;
  }
  if (verb === undefined) throw new WrongUse(say('cli.verb.none'));
  const foreign = line.given.find((option) => !shared.includes(option) && !verb.options.includes(option));
  if (foreign !== undefined) throw new WrongUse(say('cli.option.foreign', `--${foreign}`, verb.name));
  formatMustBe(line.options.format, verb.formats ?? ['text', 'json']);
  return verb.run(line, io);
}

function verbNamed(name: string): Verb {
  const verb = verbs.find((candidate) => candidate.name === name);
  if (verb !== undefined) return verb;
  const near = nearest(name, verbs.map((candidate) => candidate.name));
  throw new WrongUse(near === undefined ? say('cli.verb.unknown', name) : say('cli.verb.unknown.near', name, near));
}

async function start(): Promise<void> {
  const io = processIo();
  // Not `process.exit`, which would drop what a slow reader hasn't taken yet.
  try {
    const code = await run(process.argv.slice(2), io);
    process.exitCode = Math.max(code, Number(process.exitCode ?? 0));
  } catch (error) {
    complain(io, say('cli.fault', error instanceof Error ? (error.stack ?? error.message) : String(error)));
    process.exitCode = 2;
  }
}

// As a program, not when tests take it apart.
if (require.main === module) void start();
