import * as vscode from 'vscode';
import { parseMoment } from '../base/moment';
import type { Moment } from '../base/moment';
import { zoneOf } from '../base/zone';
import type { Zone } from '../base/zone';

/** What the setting `broodsheet.now` asks for: the time of day, or one moment for good. */
export type ClockSetting =
  | { readonly kind: 'running' }
  | { readonly kind: 'fixed'; readonly moment: Moment }
  | { readonly kind: 'unreadable'; readonly text: string };

/** The setting as it holds for a folder; a moment without an offset is one of the zone. */
export function clockSettingFor(folder: vscode.Uri, zone: Zone): ClockSetting {
  const value = vscode.workspace.getConfiguration('broodsheet', folder).get<unknown>('now');
  if (value === undefined || value === null || value === '') return { kind: 'running' };
  const text = typeof value === 'string' ? value.trim() : JSON.stringify(value);
  const moment = parseMoment(text, zone);
  return moment === undefined || moment.about ? { kind: 'unreadable', text } : { kind: 'fixed', moment };
}

/** Now, in ms. A setting that can't be read leaves the clock running. */
export function instantBy(setting: ClockSetting): number {
  return setting.kind === 'fixed' ? setting.moment.instant : Date.now();
}

/** The zone of the machine that the extension runs on. */
export function machineZone(): Zone {
  const zone = zoneOf(Intl.DateTimeFormat().resolvedOptions().timeZone) ?? zoneOf('UTC');
  if (zone === undefined) throw new Error('the machine does not know UTC');
  return zone;
}
