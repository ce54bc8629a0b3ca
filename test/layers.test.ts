import { deepStrictEqual, ok } from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { importCycles, importsOf, layerViolations } from './support/layers';

const sources = new Map(['src', 'webview'].flatMap(filesOf).map((path) => [path, readFileSync(path, 'utf8')]));

describe('layers', () => {
  it('hold in every file of src and webview', () => {
    ok(sources.size > 10, `found ${sources.size} files`);
    deepStrictEqual([...sources].flatMap(([path, text]) => layerViolations(path, text)), []);
  });

  it('have no circles of imports', () => {
    deepStrictEqual(importCycles(sources), []);
  });

  const forbidden: readonly (readonly [path: string, text: string, reason: string])[] = [
    ['src/domain/a.ts', "import * as vscode from 'vscode';", 'vscode is for src/vscode alone'],
    ['src/language/a.ts', "import type { Uri } from 'vscode';", 'vscode is for src/vscode alone'],
    ['src/records/a.ts', "import { readFileSync } from 'fs';", 'records may not use Node'],
    ['src/records/a.ts', "import { readFile } from 'fs/promises';", 'records may not use Node'],
    ['src/planner/a.ts', "import { readFileSync } from 'node:fs';", 'planner may not use Node'],
    ['src/vscode/a.ts', "import { join } from 'node:path';", 'vscode may not use Node'],
    ['src/base/a.ts', "const fs = await import('node:fs');", 'base may not use Node'],
    ['src/base/a.ts', "const fs = require('fs');", 'base may not use Node'],
    ['src/base/a.ts', "import fs = require('fs');", 'base may not use Node'],
    ['src/csv/a.ts', "import { cast } from '../schema/cast';", 'csv may not import schema'],
    ['src/csv/a.ts', "type Cast = import('../schema/cast').Cast;", 'csv may not import schema'],
    ['src/language/a.ts', "import type { Sheet } from '../views/sheet';", 'language may not import views'],
    ['src/domain/a.ts', "export { plan } from '../planner/plan';", 'domain may not import planner'],
    ['src/base/a.ts', "export * from '../csv/document';", 'base may not import csv'],
    ['src/planner/a.ts', "import { run } from '../cli/main';", 'planner may not import cli'],
    ['src/cli/a.ts', "import { activate } from '../vscode/extension';", 'cli may not import vscode'],
    ['src/vscode/a.ts', "import { build } from '../build/build.mjs';", 'vscode may not import build'],
    ['src/domain/a.ts', "import data from '../../schemas/tanks.schema.json';", 'domain may not import schemas'],
    ['src/domain/a.ts', "import { room } from '../../test/support/room';", 'domain may not import test'],
    ['src/protocol/a.ts', "import { sheetOf } from '../views/sheet';", 'protocol may import types alone'],
    ['webview/sheet/a.ts', "import { plan } from '../../src/planner/plan';", 'webview may not import planner'],
    ['webview/sheet/a.ts', "import { draw } from '../calendar/draw';", 'features may not import each other'],
    ['src/vscode/features/fill.ts', "import { hover } from './hover';", 'features may not import each other'],
    ['src/vscode/convert.ts', "import { hover } from './features/hover';", 'only the composition root imports features'],
    ['src/cli/verbs/fill.ts', "import { check } from './check';", 'features may not import each other'],
    ['src/domain/a.ts', "import fc from 'fast-check';", 'fast-check is not among the dependencies'],
    ['src/domain/a.ts', "import { x } from '@date-fns/utc/x';", '@date-fns/utc is not among the dependencies'],
  ];
  for (const [path, text, reason] of forbidden) {
    it(`forbid ${path} ${text}`, () => {
      deepStrictEqual(layerViolations(path, text), [`${path} imports ${importsOf(path, text)[0]?.specifier}: ${reason}`]);
    });
  }

  it('forbid a folder that has no layer', () => {
    deepStrictEqual(layerViolations('src/helpers/a.ts', ''), ['src/helpers/a.ts is in no known layer']);
  });

  const allowed: readonly (readonly [path: string, text: string])[] = [
    ['src/planner/a.ts', "import { Zone } from '../base/zone'; import { b } from './b'; import { tz } from '@date-fns/tz';"],
    ['src/schema/a.ts', "import tanks from '../../schemas/tanks.schema.json';"],
    ['src/protocol/a.ts', "import type { Sheet } from '../views/sheet';"],
    ['src/vscode/extension.ts', "import * as vscode from 'vscode'; import { hover } from './features/hover';"],
    ['src/vscode/features/fill.ts', "import { convert } from '../convert';"],
    ['src/cli/main.ts', "import { parseArgs } from 'node:util'; import { check } from './verbs/check'; import { version } from '../../package.json';"],
    ['webview/sheet/main.ts', "import { button } from '../shared/controls'; import type { Message } from '../../src/protocol/sheet';"],
  ];
  for (const [path, text] of allowed) {
    it(`allow ${path} ${text}`, () => {
      deepStrictEqual(layerViolations(path, text), []);
    });
  }

  it('find a circle of values, but not of types', () => {
    const files = (second: string): Map<string, string> => new Map([['src/base/a.ts', "import { b } from './b';"], ['src/base/b.ts', second]]);
    deepStrictEqual(importCycles(files("import { a } from './a';")), [['src/base/a.ts', 'src/base/b.ts', 'src/base/a.ts']]);
    deepStrictEqual(importCycles(files("import type { A } from './a';")), []);
  });
});

function filesOf(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .filter((path) => /\.(ts|mts|mjs|tsx)$/.test(path) && !path.endsWith('.d.ts'));
}
