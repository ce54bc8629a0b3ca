import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { findChromium } from './chromium.mjs';

const calm = ['--no-sandbox', '--disable-lcd-text', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

/**
 * A headless Chromium with a fresh profile and one page; close() ends it and removes the profile.
 * @param {{ width: number, height: number }} [viewport] in pixels
 * @returns {Promise<{ page: import('playwright-core').Page, close: () => Promise<void> }>}
 */
export async function openBrowser(viewport = { width: 1400, height: 900 }) {
  const profile = mkdtempSync(join(tmpdir(), 'broodsheet-chromium-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: await findChromium(),
    headless: true,
    viewport,
    args: calm,
  });
  return {
    page: context.pages()[0] ?? (await context.newPage()),
    async close() {
      await context.close();
      rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
    },
  };
}
