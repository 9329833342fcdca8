import { Uri, type Webview } from 'vscode';

const NONCE_BYTES = 16;

/** Where a panel may load its style and its one script from. */
export function panelRoots(extension: Uri): readonly Uri[] {
  return [Uri.joinPath(extension, 'client', 'media'), Uri.joinPath(extension, 'dist')];
}

/**
 * The frame of a panel; its content comes by message, so that typing does not load the page anew. Nothing is loaded but
 * our own style and, by its nonce, our own script.
 */
export function panelPage(webview: Webview, extension: Uri): string {
  const nonce = makeNonce();
  const at = (...path: string[]) => webview.asWebviewUri(Uri.joinPath(extension, ...path)).toString();
  const policy = `default-src 'none'; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Setproof</title>
<link rel="stylesheet" href="${at('client', 'media', 'panel.css')}">
</head>
<body>
<aside id="follow" aria-label="What rests on the entry at the cursor"></aside>
<div id="content"></div>
<script nonce="${nonce}" src="${at('dist', 'panel.js')}"></script>
</body>
</html>
`;
}

function makeNonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(NONCE_BYTES));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
