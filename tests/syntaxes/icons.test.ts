import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const file = (name: string): Buffer => readFileSync(new URL(`../../syntaxes/${name}`, import.meta.url));

describe('icons', () => {
  test('the icon of the extension is a PNG of 256 by 256 with transparency', () => {
    const png = file('icon.png');
    // Signature and IHDR chunk: PNG specification (W3C), 5.2 and 11.2.1; colour type 6 is RGBA.
    expect(png.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
    expect([png.readUInt32BE(16), png.readUInt32BE(20), png[25]]).toEqual([256, 256, 6]);
  });

  test.each(['icon.svg', 'icon-light.svg', 'icon-dark.svg'])(
    '%s is drawn from itself: no script, nothing from outside',
    (name) => {
      const svg = file(name).toString('utf8');
      expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
      expect(svg).not.toMatch(/<script|href|url\(|<image|<style|\bon\w+=/);
    },
  );
});
