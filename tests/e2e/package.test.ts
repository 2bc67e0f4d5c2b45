import { readFileSync } from 'node:fs';
import { join, normalize } from 'node:path';
import { describe, expect, test } from 'vitest';
import { packagedFiles } from './support/desktop.ts';
import { projectFolder } from './support/requirements.ts';

const manifest = JSON.parse(readFileSync(join(projectFolder, 'package.json'), 'utf8'));

describe('the package', async () => {
  const files = await packagedFiles();

  test('holds what runs and nothing else', () => {
    expect([...files].sort()).toEqual([
      'CHANGELOG.md',
      'LICENSE',
      'README.md',
      'dist/client-node.cjs',
      'dist/client-web.js',
      'dist/server-node.cjs',
      'dist/server-worker.js',
      'dist/shootplan.cjs',
      'dist/third-party-licenses.txt',
      'package.json',
      'syntaxes/icon-dark.svg',
      'syntaxes/icon-light.svg',
      'syntaxes/icon.png',
      'syntaxes/language-configuration.json',
      'syntaxes/shootplan.tmLanguage.json',
      'syntaxes/snippets.json',
    ]);
  });

  test('holds every file that its manifest names', () => {
    const { main, browser, bin, icon, contributes } = manifest;
    const [language] = contributes.languages;
    const named = [
      main,
      browser,
      bin.shootplan,
      icon,
      language.configuration,
      language.icon.light,
      language.icon.dark,
      contributes.grammars[0].path,
      contributes.snippets[0].path,
    ];
    expect(files).toEqual(expect.arrayContaining(named.map((path) => normalize(path))));
  });

  test('does not call itself a module: web hosts load the client as CommonJS only then', () => {
    expect(manifest).not.toHaveProperty('type');
  });
});
