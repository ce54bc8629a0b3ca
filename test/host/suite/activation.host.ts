import { ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, uriOf } from './support';

describe('the extension', () => {
  it('is there and wakes by itself in a folder that holds a fishroom', async () => {
    const extension = vscode.extensions.getExtension('broodsheet.broodsheet');
    ok(extension, 'broodsheet.broodsheet is not among the extensions');
    ok(await vscode.workspace.fs.stat(uriOf('room/fishroom.json')));
    await eventually('the extension to be active', () => extension.isActive);
    // Also true when it failed to start; then this rejects.
    await extension.activate();
  });
  it('runs in the host that was asked for', () => {
    strictEqual('WorkerGlobalScope' in globalThis ? 'web worker' : 'node', HOST);
  });
});
