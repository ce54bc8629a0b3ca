// Stands for @vscode/ripgrep-universal, which carries the search program for every platform; the host installs this machine's alone.
import { fileURLToPath } from 'node:url';

const program = process.platform === 'win32' ? 'rg.exe' : 'rg';
export const rgPath = fileURLToPath(new URL(`../ripgrep-${process.platform}-${process.arch}/bin/${program}`, import.meta.url));
