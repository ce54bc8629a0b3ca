/** An element of a page, with the text of all that is in it. */
export interface Tag {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Tag[];
  readonly text: string;
}

const piece = /<(\/?)([a-z][a-z0-9]*)((?: [a-z-]+="[^"<>&]*(?:&(?:amp|lt|gt|quot|#39);[^"<>&]*)*")*)(\/?)>|([^<>&]+)|&(amp|lt|gt|quot|#39);/y;
const signs: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

/**
 * Reads a page that is well-formed as XML has it (every element is closed, every attribute is quoted, nothing but five entities); throws, with the place, for
 * any other. So it finds whatever broke out of a text or an attribute.
 */
export function readPage(page: string): Tag {
  const start = '<!DOCTYPE html>\n';
  if (!page.startsWith(start)) throw new Error('the page has no doctype');
  const open: { name: string; attributes: Record<string, string>; children: Tag[]; text: string }[] = [{ name: '', attributes: {}, children: [], text: '' }];
  piece.lastIndex = start.length;
  while (piece.lastIndex < page.length) {
    const at = piece.lastIndex;
    const found = piece.exec(page);
    if (found === null) throw new Error(`not well-formed here: ${page.slice(at, at + 60)}`);
    const [, closing, name, attributes = '', selfClosing, text, entity] = found;
    const here = open.at(-1) as (typeof open)[number];
    if (text !== undefined || entity !== undefined) here.text += text ?? signs[entity ?? ''] ?? '';
    else if (closing === '/') {
      if (here.name !== name) throw new Error(`</${name as string}> closes <${here.name}>: ${page.slice(at, at + 60)}`);
      open.pop();
      const parent = open.at(-1) as (typeof open)[number];
      parent.children.push(here);
      parent.text += here.text;
    } else {
      const tag = { name: name as string, attributes: Object.fromEntries([...attributes.matchAll(/ ([a-z-]+)="([^"]*)"/g)].map(([, key = '', value = '']) => [key, unescaped(value)])), children: [], text: '' };
      if (selfClosing === '/') here.children.push(tag);
      else open.push(tag);
    }
  }
  const [root] = open;
  if (open.length !== 1 || root?.children[0] === undefined) throw new Error('an element is not closed');
  return root.children[0];
}

function unescaped(value: string): string {
  return value.replaceAll(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => signs[name] as string);
}

/** All elements of a name in a tag, in their order. */
export function tagsIn(tag: Tag, name: string): readonly Tag[] {
  return tag.children.flatMap((child) => [...(child.name === name ? [child] : []), ...tagsIn(child, name)]);
}
