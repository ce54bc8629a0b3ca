import type { CommandLine, Format, OptionName } from './args';
import type { ExitCode, Io } from './io';

/** What the command line can be asked to do. */
export interface Verb {
  readonly name: 'due' | 'ahead' | 'calendar' | 'check' | 'fill' | 'explain' | 'kin' | 'skill';
  /** The options it has besides those that all have. */
  readonly options: readonly OptionName[];
  /** What it can answer in where that isn't text and JSON. */
  readonly formats?: readonly Format[];
  /** Throws WrongUse. */
  run(line: CommandLine, io: Io): Promise<ExitCode>;
}
