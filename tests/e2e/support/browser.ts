import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { pathOf } from './requirements.ts';

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * A page of a headless Chromium with a profile of its own. The profile allows third-party storage: web views
 * live on a subdomain of localhost, and without it their service worker is refused.
 */
export async function openPage(): Promise<{ page: Page; close(): Promise<void> }> {
  const profile = mkdtempSync(join(tmpdir(), 'shoot-plan-browser-'));
  mkdirSync(join(profile, 'Default'));
  const preferences = { profile: { cookie_controls_mode: 0, block_third_party_cookies: false } };
  writeFileSync(join(profile, 'Default/Preferences'), JSON.stringify(preferences));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: pathOf('chromium'),
    headless: true,
    args: flags,
    viewport: { width: 1400, height: 1400 },
    locale: 'en-GB',
    timezoneId: 'Europe/London',
  });
  context.setDefaultTimeout(60_000);
  const page = context.pages()[0] ?? (await context.newPage());
  return {
    page,
    close: async () => {
      await context.close();
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}
