// Stands for @vscode/spdlog, a native module that only writes log files.
const { appendFileSync, mkdirSync } = require('node:fs');
const { dirname } = require('node:path');

const levels = ['trace', 'debug', 'info', 'warn', 'error', 'critical'];

class Logger {
  constructor(file) {
    this.level = levels.indexOf('info');
    mkdirSync(dirname(file), { recursive: true });
    levels.forEach((name, level) => {
      this[name] = (message) => {
        if (level >= this.level) appendFileSync(file, `${new Date().toISOString()} [${name}] ${message}\n`);
      };
    });
  }
  getLevel() {
    return this.level;
  }
  setLevel(level) {
    this.level = level;
  }
  setPattern() {}
  clearFormatters() {}
  flush() {}
  drop() {}
}

exports.version = 0;
exports.setLevel = () => {};
exports.setFlushOn = () => {};
exports.Logger = Logger;
exports.createRotatingLogger = async (_name, file) => new Logger(file);
exports.createAsyncRotatingLogger = async (_name, file) => new Logger(file);
