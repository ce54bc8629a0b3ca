import { plainText } from './contentLine';

/** A piece of a page. It is only made by `element` and `text`, so that nothing gets into a page as it stands in a cell. */
export interface Html {
  readonly html: string;
}

type Child = Html | string | undefined;

const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** A text as it shows; signs that a page can't hold are left out. */
export function text(plain: string): Html {
  return { html: plainText(plain).replaceAll(/[&<>"']/g, (sign) => entities[sign] as string) };
}

/** An element whose children are elements or texts; undefined ones are left out. What has no children closes itself. */
export function element(name: string, attributes: Readonly<Record<string, string>>, ...children: readonly Child[]): Html {
  const start = [name, ...Object.entries(attributes).map(([attribute, value]) => `${attribute}="${text(value).html}"`)].join(' ');
  if (isVoid.has(name)) return { html: `<${start}/>` };
  return { html: `<${start}>${children.map(htmlOf).join('')}</${name}>` };
}

const isVoid: ReadonlySet<string> = new Set(['meta', 'br', 'hr']);

function htmlOf(child: Child): string {
  if (child === undefined) return '';
  return typeof child === 'string' ? text(child).html : child.html;
}
