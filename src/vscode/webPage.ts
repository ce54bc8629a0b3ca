import * as vscode from 'vscode';

/** The folder of what the build makes, the only one that web views may read. */
export function pageFolder(extension: vscode.Uri): vscode.Uri {
  return vscode.Uri.joinPath(extension, 'dist');
}

/** The page of a web view: a script and a style sheet of `dist`, and nothing else is let in. Data comes by messages, never in here. */
export function pageOf(webview: vscode.Webview, { extension, name, title }: { readonly extension: vscode.Uri; readonly name: string; readonly title: string }): string {
  const nonce = crypto.randomUUID();
  const uri = (file: string): string => webview.asWebviewUri(vscode.Uri.joinPath(pageFolder(extension), file)).toString();
  // Controls of the toolkit make style sheets of their own in script, which needs no leave.
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src ${webview.cspSource}; font-src ${webview.cspSource};`;
  return `<!DOCTYPE html>
<html lang="${escaped(vscode.env.language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<link rel="stylesheet" href="${uri(`${name}.css`)}">
</head>
<body>
<script nonce="${nonce}" src="${uri(`${name}.js`)}"></script>
</body>
</html>`;
}

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
}
