import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { OpenFishroom } from './openFishroom';

/** Why a keeper is asked before a file is changed: what saving it changes beside that. */
export function reasonToAsk(room: OpenFishroom, path: string): Message | undefined {
  const file = room.plan.records.file(path);
  if (file?.badAt !== undefined) return say('editor.ask.rewrite.encoding');
  return file?.mixedLineEnds === true ? say('editor.ask.rewrite.detail') : undefined;
}
