import { deepStrictEqual, strictEqual } from 'node:assert/strict';
import { mock } from 'node:test';
import { Bursts } from '../../../src/vscode/bursts';
import { RepeatedTask } from '../../../src/vscode/repeatedTask';

describe('bursts', () => {
  beforeEach(() => mock.timers.enable({ apis: ['setTimeout', 'Date'] }));
  afterEach(() => mock.timers.reset());

  it('are over once nothing came for a while, and only where much came', () => {
    let over = 0;
    const bursts = new Bursts({ many: 10, quiet: 1000, onOver: () => (over += 1) });
    for (let i = 0; i < 30; i += 1) {
      bursts.tell();
      mock.timers.tick(300);
    }
    strictEqual(over, 0);
    for (let i = 0; i < 10; i += 1) mock.timers.tick(300);
    strictEqual(over, 1);
    for (let i = 0; i < 30; i += 1) {
      bursts.tell();
      mock.timers.tick(2000);
    }
    strictEqual(over, 1);
  });
});

describe('repeated work', () => {
  const pass = async (ms: number) => {
    for (let i = 0; i < ms; i += 50) {
      mock.timers.tick(50);
      for (let j = 0; j < 5; j += 1) await Promise.resolve();
    }
  };
  beforeEach(() => mock.timers.enable({ apis: ['setTimeout', 'Date'] }));
  afterEach(() => mock.timers.reset());

  it('is put off by no more than half a minute, and begins sooner where it is asked to', async () => {
    const begun: number[] = [];
    const task = new RepeatedTask({
      rest: 1000,
      work: async () => {
        begun.push(Date.now());
        mock.timers.setTime(Date.now() + 5000);
        return await Promise.resolve('again');
      },
    });
    task.start();
    await pass(40_000);
    deepStrictEqual(begun, [1000, 36_000]);
    task.start();
    await pass(1000);
    strictEqual(begun.length, 3);
    task.dispose();
  });

  it('rests twenty times as long as it took, and ends when there is nothing left to do', async () => {
    const begun: number[] = [];
    const task = new RepeatedTask({
      rest: 1000,
      work: async () => {
        begun.push(Date.now());
        mock.timers.setTime(Date.now() + (begun.length === 1 ? 10 : 200));
        return await Promise.resolve(begun.length === 3 ? 'done' : 'again');
      },
    });
    task.start();
    task.start();
    await pass(10_000);
    deepStrictEqual(begun, [1000, 2010, 6210]);
    await pass(10_000);
    strictEqual(begun.length, 3);
    task.start();
    await pass(2000);
    strictEqual(begun.length, 4);
    task.dispose();
    await pass(20_000);
    strictEqual(begun.length, 4);
  });
});
