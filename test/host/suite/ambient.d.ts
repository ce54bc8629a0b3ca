/** Imports every suite/*.host.ts; the bundling (test/host/bundle.mjs) makes it. */
declare module 'every-host-file';

/** The extension host that the suite was bundled for. */
declare const HOST: 'node' | 'web worker';
