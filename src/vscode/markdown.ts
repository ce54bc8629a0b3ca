import { textOf } from '../base/messages';
import type { Message } from '../base/messages';
import type { Fact, Part, Piece, Shown } from '../language/hoverText';
import type { Place } from '../planner/problem';

/** Where links and pictures lead; undefined for what is to be shown as text alone. */
export interface Targets {
  hrefOf(place: Place): string | undefined;
  photoOf(file: string, target: string): { readonly href: string; readonly isShown: boolean } | undefined;
}

/** As high as a picture may be, in pixels, so that the text above it stays in view. */
const PHOTO_HEIGHT = 160;

/** What is shown about something as Markdown in which nothing that stands in a record is markup, so that it needs no trust. */
export function markdownOf({ title, beside, parts }: Shown, targets: Targets): string {
  const heading = `**${escaped(title)}**${beside === undefined ? '' : `\u2002\`${code(beside)}\``}`;
  let markdown = heading;
  let before: Part['kind'] | undefined;
  for (const part of parts) {
    const paragraph = paragraphOf(part, targets);
    if (paragraph === undefined) continue;
    // Sentences that follow each other take a line each, not a paragraph: a hover is only so high.
    markdown += (part.kind === 'text' && before === 'text' ? '  \n' : '\n\n') + paragraph;
    before = part.kind;
  }
  return markdown;
}

function paragraphOf(part: Part, targets: Targets): string | undefined {
  switch (part.kind) {
    case 'text':
      return escaped(part.text);
    case 'facts':
      return part.facts.map((fact) => factText(fact, targets)).join(' \u2002 ');
    case 'list':
      return [`${escaped(part.title)}\\:`, ...part.lines.map((line) => `- ${pieces(line, targets)}`)].join('\n');
    case 'links':
      return part.links.map((link) => pieces([link], targets)).join(' \u2002 ');
    case 'photo': {
      const photo = targets.photoOf(part.file, part.target);
      if (photo === undefined) return undefined;
      return photo.isShown ? `![${escaped(part.target)}](${photo.href}|height=${PHOTO_HEIGHT})` : `[${escaped(part.target)}](${photo.href})`;
    }
  }
}

/** Short facts stay in one piece where the line is broken. */
function factText({ name, pieces: told, behind = [] }: Fact, targets: Targets): string {
  const length = [{ text: name }, ...told, ...behind].reduce((sum, { text }) => sum + plainText(text).length, 0);
  const tie = (text: string): string => (length < 60 ? text.replaceAll(' ', '\u00a0') : text);
  const more = behind.length === 0 ? '' : `, ${pieces(behind, targets)}`;
  return `${tie(escaped(name))}\u00a0**${tie(pieces(told, targets))}**${tie(more)}`;
}

function pieces(all: readonly Piece[], targets: Targets): string {
  return all
    .map(({ text, to }) => {
      const href = to === undefined ? undefined : targets.hrefOf(to);
      return href === undefined ? escaped(text) : `[${escaped(text)}](${href})`;
    })
    .join('');
}

/**
 * A text that Markdown shows as it is, on one line: every ASCII punctuation mark may be escaped (CommonMark 0.31, section 2.4), which leaves
 * no links, addresses, images, HTML or entities. Signs that turn the direction of a text become blanks.
 */
export function escaped(text: string | Message): string {
  return plainText(text).replace(/[\p{Cc}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]+/gu, ' ').replace(/[!-/:-@[-`{-~]/g, '\\$&');
}

function plainText(text: string | Message): string {
  return typeof text === 'string' ? text : textOf(text);
}

/** The name of a column of ours between backticks. */
function code(text: string): string {
  return text.replaceAll('`', '');
}
