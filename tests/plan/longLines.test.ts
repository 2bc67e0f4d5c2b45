import { describe, expect, test } from 'vitest';
import { analysed } from '../support/check.ts';

describe('A broken line, however long, has a short message', () => {
  const long = 'x'.repeat(20_000);
  test.each([
    ['unclosed brackets', `note: ${'['.repeat(20_000)}\n`, 'syntax/too-deep'],
    ['many unclosed brackets', `note: ${'['.repeat(40)}\n`, 'syntax/unclosed-bracket'],
    ['many unclosed braces', `note: ${'{ a: '.repeat(40)}\n`, 'syntax/unclosed-bracket'],
    ['a colon in a value', `note: North: ${long}\n`, 'syntax/colon-in-value'],
    ['a colon that is missing', `note ${long}\nplan: 2\n`, 'syntax/colon-missing'],
    ['a key without its colon', `${long}\n  plan: 2\n`, 'syntax/colon-missing'],
    ['a space that is missing', `note:${long}\nplan: 2\n`, 'syntax/space-missing'],
    ['an unknown alias', `plan: &${long} 1\nnote: *${long}y\n`, 'syntax/unknown-alias'],
    ['an alias in its own block', `hazards: &${long} [*${long}]\n`, 'syntax/alias-cycle'],
    ['a key that stands twice', `${long}: 1\n${long}: 2\n`, 'syntax/duplicate-key'],
    ['a key that is not known', `${long}: 1\n`, 'plan/unknown-key'],
    ['a word that is not known', `bearings: ${long}\n`, 'plan/unknown-word'],
    [
      'coordinates the wrong way round',
      `spots: [{ id: a, at: "geo:151.${'2'.repeat(20_000)},-33" }]\n`,
      'plan/swapped-coordinates',
    ],
  ])('%s', (_, text, code) => {
    const { findings } = analysed(text);
    expect(findings.map((finding) => finding.code)).toContain(code);
    for (const { message } of findings) expect(message.length, message).toBeLessThan(500);
  });

  test('which names the first brackets and counts the others', () => {
    const { findings } = analysed(`note: ${'['.repeat(20)}\n`);
    expect(findings.map(({ message }) => message)).toContain(
      'This bracket is not closed. Write ]]]]]]]] and 12 more at the end of the value.',
    );
  });
});
