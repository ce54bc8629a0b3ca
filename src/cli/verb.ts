import type { CommandLine, OptionName } from './args';
import type { ExitCode, Io } from './io';

/** What the command line can be asked to do. */
export interface Verb {
  readonly name: 'due' | 'ahead' | 'check' | 'fill' | 'explain' | 'kin' | 'skill';
  /** The options it has besides those that all have. */
  readonly options: readonly OptionName[];
  /** Throws WrongUse. */
  run(line: CommandLine, io: Io): Promise<ExitCode>;
}
