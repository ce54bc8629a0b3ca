/** The host of a web view, as VS Code hands it out once. */
export interface Host<Sent, State> {
  postMessage(message: Sent): void;
  getState(): State | undefined;
  setState(state: State): void;
}

declare function acquireVsCodeApi(): Host<unknown, unknown>;

/** The host of this web view; may be asked for once only. `Sent`: what is sent to it, `State`: what survives closing the window. */
export function acquireHost<Sent, State>(): Host<Sent, State> {
  return acquireVsCodeApi() as Host<Sent, State>;
}
