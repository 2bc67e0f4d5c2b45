import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { defaultSettings } from '../../server/lsp/settings.ts';
import { thresholds } from '../../server/schedule/thresholds.ts';

interface Setting {
  readonly default: unknown;
}

const manifest = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
  contributes: { configuration: { properties: Record<string, Setting> } };
};
const settings = manifest.contributes.configuration.properties;

it('states the same defaults in the manifest and in the server', () => {
  const hints = Object.entries(settings)
    .filter(([key]) => key.startsWith('shootPlan.hints.'))
    .map(([key, setting]) => [key.slice('shootPlan.hints.'.length), setting.default]);
  expect(Object.fromEntries(hints)).toEqual(defaultSettings.hints);
  expect(settings['shootPlan.checks']?.default).toEqual({});
  expect(settings['shootPlan.thresholds']?.default).toEqual({});
});

it('knows each threshold once', () => {
  const names = thresholds.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
});
