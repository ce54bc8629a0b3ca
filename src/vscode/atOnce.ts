/** Files asked for at the same time. */
const AT_ONCE = 32;

/** Does a work for each of the items, some at the same time. */
export async function atOnce<Item>(items: Iterable<Item>, work: (item: Item) => Promise<void>): Promise<void> {
  const queue = items[Symbol.iterator]();
  const worker = async (): Promise<void> => {
    for (let next = queue.next(); next.done !== true; next = queue.next()) await work(next.value);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
}
