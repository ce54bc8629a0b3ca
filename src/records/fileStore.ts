/** One entry of a folder. */
export interface FolderEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder';
}

/** What a file holds: its text, and whether that text can be written back byte for byte. */
export interface FileText {
  readonly text: string;
  /** Its characters as `asciiOf` has them, where the bytes that were read are just that. Nobody writes to them. */
  readonly codes?: Uint8Array | undefined;
  /** Offset in `text` of the first thing that isn't UTF-8; undefined where all of it is. */
  readonly badAt?: number;
  /** The file on disk mixes kinds of line ends, which an editor would make one. */
  readonly mixedLineEnds?: boolean;
}

/** Where a fishroom's files come from. Paths are relative to the fishroom, with `/`; a missing file is undefined. */
export interface FileStore {
  list(folder: string): Promise<readonly FolderEntry[]>;
  read(path: string): Promise<FileText | undefined>;
}

const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const lenient = new TextDecoder('utf-8', { ignoreBOM: true });

/** Reads UTF-8 and keeps a byte order mark as the first character. Never throws: what is no UTF-8 is told by `badAt`. */
export function decode(bytes: Uint8Array): FileText {
  try {
    const text = strict.decode(bytes);
    const codes = codesIn(bytes, text);
    return hasMixedLineEnds(text) ? { text, codes, mixedLineEnds: true } : { text, codes };
  } catch {
    const text = lenient.decode(bytes);
    return { text, badAt: firstDifference(text, bytes) };
  }
}

/** What is not ASCII takes more bytes than the text has characters. A part of a larger piece would keep all of that in memory. */
function codesIn({ buffer, byteLength }: Uint8Array, text: string): Uint8Array | undefined {
  return byteLength === text.length && byteLength === buffer.byteLength ? new Uint8Array(buffer) : undefined;
}

function hasMixedLineEnds(text: string): boolean {
  if (!text.includes('\r')) return false;
  const lone = /\r(?!\n)/.test(text);
  const bare = /(?:^|[^\r])\n/.test(text);
  const both = text.includes('\r\n');
  return [lone, bare, both].filter(Boolean).length > 1;
}

/** The first replacement character that the bytes don't really hold. */
function firstDifference(text: string, bytes: Uint8Array): number {
  const encoder = new TextEncoder();
  let from = 0;
  let read = 0;
  for (;;) {
    const at = text.indexOf('\uFFFD', from);
    if (at < 0) return 0;
    read += encoder.encode(text.slice(from, at)).length;
    if (!(bytes[read] === 0xef && bytes[read + 1] === 0xbf && bytes[read + 2] === 0xbd)) return at;
    read += 3;
    from = at + 1;
  }
}
