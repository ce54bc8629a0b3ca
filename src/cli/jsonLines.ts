/**
 * One JSON object with an entry of its lists a line, so that thousands are written without being held as one text: what stands
 * at its head (at least one member), the lists in their order, and what follows them.
 */
export function* jsonLines(
  head: Readonly<Record<string, unknown>>,
  lists: Readonly<Record<string, Iterable<unknown>>>,
  tail: Readonly<Record<string, unknown>> = {},
): Generator<string> {
  let before = JSON.stringify(head).slice(0, -1);
  for (const [name, entries] of Object.entries(lists)) {
    yield `${before},${JSON.stringify(name)}:[`;
    let separator = '';
    for (const entry of entries) {
      yield separator + JSON.stringify(entry);
      separator = ',';
    }
    before = ']';
  }
  const members = JSON.stringify(tail).slice(1);
  yield before + (members === '}' ? members : `,${members}`);
}
