import { provideVSCodeDesignSystem, vsCodeButton, vsCodeCheckbox, vsCodeDropdown, vsCodeOption, vsCodeTextField } from '@vscode/webview-ui-toolkit';

/**
 * Registers the controls that screens use: `vscode-button`, `vscode-checkbox`, `vscode-dropdown` with `vscode-option`, and `vscode-text-field`. Tables and
 * calendars are our own, since these have none that carries thousands of rows.
 */
export function registerControls(): void {
  provideVSCodeDesignSystem().register(vsCodeButton(), vsCodeCheckbox(), vsCodeDropdown(), vsCodeOption(), vsCodeTextField());
}
