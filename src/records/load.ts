import type { Fishroom } from './discovery';
import type { FileStore } from './fileStore';
import type { FileChange } from './records';

/** Reads all files of a fishroom, as changes to apply at once. A file that vanished meanwhile is left out. */
export async function readAll(store: FileStore, fishroom: Fishroom): Promise<readonly FileChange[]> {
  const prefix = fishroom.folder === '' ? '' : `${fishroom.folder}/`;
  const batch: FileChange[] = [];
  for (const path of fishroom.files) {
    const file = await store.read(prefix + path);
    if (file !== undefined) batch.push({ path, file });
  }
  return batch;
}
