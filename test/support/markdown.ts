/** The part of a page below a heading, up to the next heading of its level or above. Throws when there is no such heading. */
export function sectionOf(page: string, heading: string): string {
  const level = /^#+/.exec(heading)?.[0].length ?? 0;
  const lines = linesOf(page);
  const first = lines.findIndex(({ text, isCode }) => !isCode && text === heading);
  if (first < 0) throw new Error(`the page has no heading "${heading}"`);
  const rest = lines.slice(first + 1);
  const end = rest.findIndex(({ text, isCode }) => !isCode && new RegExp(`^#{1,${level}} `).test(text));
  return (end < 0 ? rest : rest.slice(0, end)).map(({ text }) => text).join('\n');
}

/** The headings of a page as they stand there, `### ` included. */
export function headingsOf(page: string): readonly string[] {
  return linesOf(page).flatMap(({ text, isCode }) => (!isCode && /^#+ /.test(text) ? [text] : []));
}

/** The rows of all tables in a text, header rows left out: each cell without the blanks around it. */
export function tableRowsOf(text: string): readonly (readonly string[])[] {
  const lines = text.split('\n');
  return lines.flatMap((line, i) => {
    const isHeader = /^\|[-| ]+\|$/.test(lines[i + 1] ?? '');
    if (!line.startsWith('|') || isHeader || /^\|[-| ]+\|$/.test(line)) return [];
    return [line.slice(1, -1).split('|').map((cell) => cell.trim())];
  });
}

/** What stands between single backticks outside blocks of code, in order. */
export function codeIn(text: string): readonly string[] {
  const prose = linesOf(text).filter(({ isCode }) => !isCode).map((line) => line.text).join('\n');
  return [...prose.matchAll(/`([^`\n]+)`/g)].map(([, code]) => code ?? '');
}

interface Line {
  readonly text: string;
  readonly isCode: boolean;
}

function linesOf(page: string): readonly Line[] {
  let isCode = false;
  return page.split('\n').map((text) => {
    const isFence = text.startsWith('```');
    if (isFence) isCode = !isCode;
    return { text, isCode: isCode || isFence };
  });
}
