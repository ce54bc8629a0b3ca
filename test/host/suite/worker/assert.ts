// What the suite uses of node:assert/strict, for the web worker host, which has no Node. Of plain data: primitives, arrays, plain objects, maps and sets as lists.

class AssertionError extends Error {
  constructor(
    message: string,
    readonly actual?: unknown,
    readonly expected?: unknown,
  ) {
    super(actual === undefined && expected === undefined ? message : `${message}\nactual: ${shown(actual)}\nexpected: ${shown(expected)}`);
    this.name = 'AssertionError';
  }
}

export function fail(message = 'failed'): never {
  throw new AssertionError(message);
}

export function ok(value: unknown, message = 'is not truthy'): asserts value {
  if (!value) throw new AssertionError(message, value, true);
}

export function strictEqual(actual: unknown, expected: unknown, message = 'are not the same'): void {
  if (!Object.is(actual, expected)) throw new AssertionError(message, actual, expected);
}

export function notStrictEqual(actual: unknown, expected: unknown, message = 'are the same'): void {
  if (Object.is(actual, expected)) throw new AssertionError(message, actual, expected);
}

export function deepStrictEqual(actual: unknown, expected: unknown, message = 'are not deeply equal'): void {
  if (!isDeeplyEqual(actual, expected)) throw new AssertionError(message, actual, expected);
}

export function match(text: string, pattern: RegExp, message = 'does not match'): void {
  if (!pattern.test(text)) throw new AssertionError(message, text, String(pattern));
}

export async function rejects(work: PromiseLike<unknown> | (() => PromiseLike<unknown>), pattern?: RegExp): Promise<void> {
  try {
    await (typeof work === 'function' ? work() : work);
  } catch (error) {
    if (pattern !== undefined) match(String(error), pattern);
    return;
  }
  throw new AssertionError('was not rejected');
}

function isDeeplyEqual(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Object.getPrototypeOf(a) !== Object.getPrototypeOf(b)) return false;
  if (isList(a) && isList(b)) return isDeeplyEqual([...a], [...b]);
  const [keysOfA, keysOfB] = [Object.keys(a), Object.keys(b)];
  const [first, second] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  return keysOfA.length === keysOfB.length && keysOfA.every((key) => Object.hasOwn(b, key) && isDeeplyEqual(first[key], second[key]));
}

function isList(value: object): value is ReadonlyMap<unknown, unknown> | ReadonlySet<unknown> {
  return value instanceof Map || value instanceof Set;
}

function shown(value: unknown): string {
  return value === undefined ? 'undefined' : JSON.stringify(value, null, 2);
}
