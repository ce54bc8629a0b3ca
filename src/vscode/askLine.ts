import * as vscode from 'vscode';
import { textOf } from '../base/messages';
import type { Message } from '../base/messages';

/** A line of text that is asked for. */
export interface AskedLine {
  readonly title: string;
  readonly prompt: string;
  readonly placeHolder?: string;
  /** What is filled in; it is selected, so that typing replaces it. */
  readonly value?: string;
  readonly faultOf: (text: string) => Message | undefined;
}

/**
 * Asks for a line of text and tries it before it is taken; undefined once the keeper would rather not. What is wrong with it is
 * said as soon as something was typed or Enter was pressed: before that it would cover the question. A click beside it loses nothing.
 */
export async function askLine({ title, prompt, placeHolder, value = '', faultOf }: AskedLine): Promise<string | undefined> {
  const box = vscode.window.createInputBox();
  box.title = title;
  box.prompt = prompt;
  box.placeholder = placeHolder;
  box.ignoreFocusOut = true;
  box.value = value;
  box.valueSelection = [0, value.length];
  const isFaulty = (): boolean => {
    const fault = faultOf(box.value);
    box.validationMessage = fault === undefined ? undefined : textOf(fault);
    return fault !== undefined;
  };
  return await new Promise((resolve) => {
    box.onDidChangeValue(isFaulty);
    box.onDidAccept(() => {
      if (isFaulty()) return;
      resolve(box.value);
      box.hide();
    });
    box.onDidHide(() => {
      resolve(undefined);
      box.dispose();
    });
    box.show();
  });
}
