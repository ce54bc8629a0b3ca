// mocha's own build for browsers puts its class on the global object.
import 'mocha/mocha.js';
import type MochaClass from 'mocha';

export default (globalThis as unknown as { readonly Mocha: typeof MochaClass }).Mocha;
