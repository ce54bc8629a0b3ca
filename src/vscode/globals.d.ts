// What the Node host and the web worker host of extensions both have. The library of either would let in what the other lacks.
declare function setTimeout(callback: () => void, ms: number): unknown;
declare function clearTimeout(timer: unknown): void;
declare const console: Readonly<Record<'log' | 'warn' | 'error', (...values: readonly unknown[]) => void>>;
declare const crypto: { randomUUID(): string };
