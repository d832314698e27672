/** The preview's document: strict about what it may load. No inline script, no inline style, no outside request. */

export interface PageParts {
  /** Addresses of the script and the style sheet, as the webview may reach them. */
  readonly script: string;
  readonly style: string;
  /** The webview's own source, for the style sheet. */
  readonly source: string;
  readonly nonce: string;
  readonly title: string;
  readonly language?: string;
  /** English texts and what they are in the reader's language; left out where the editor is English. */
  readonly words?: Readonly<Record<string, string>> | undefined;
}

export function previewPage({ script, style, source, nonce, title, language = 'en', words }: PageParts): string {
  const policy = `default-src 'none'; script-src 'nonce-${escaped(nonce)}'; style-src ${escaped(source)}; img-src data: blob:`;
  return `<!DOCTYPE html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${escaped(style)}">
<title>${escaped(title)}</title>
</head>
<body>
<div id="preview"${words ? ` data-words="${escaped(JSON.stringify(words))}"` : ''}></div>
<script nonce="${escaped(nonce)}" src="${escaped(script)}"></script>
</body>
</html>
`;
}

function escaped(text: string): string {
  return text.replace(
    /[&<>"]/g,
    letter => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[letter] ?? letter,
  );
}
