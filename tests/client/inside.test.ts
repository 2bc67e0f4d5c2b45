import { describe, expect, test } from 'vitest';
import { isInside, type Location } from '../../client/inside.ts';

const file = (path: string): Location => ({ scheme: 'file', authority: '', path });

describe('what lies inside a folder', () => {
  const folder = file('/home/plans');

  test.each([
    '/home/plans/dawn.shootplan.yaml',
    '/home/plans/kit/bag.shootkit.yaml',
    '/home/plans',
    '/home/plans/north/../kit/bag.shootkit.yaml',
    '/home/plans/./bag.shootkit.yaml',
    '/home//plans/bag.shootkit.yaml',
    '/home/plans/.../bag.shootkit.yaml',
    '/home/plans/fjørd (winter) #2.shootplan.yaml',
  ])('%s', (path) => {
    expect(isInside(folder, file(path))).toBe(true);
  });

  test.each([
    '/home/bag.shootkit.yaml',
    '/home/plans2/bag.shootkit.yaml',
    '/home/plans/../bag.shootkit.yaml',
    '/home/plans/kit/../../bag.shootkit.yaml',
    '/home/plans/../../../../home/plans/bag.shootkit.yaml',
    '/home/plans/..\\bag.shootkit.yaml',
    '/home/plans/bag\0.shootkit.yaml',
    '/Home/Plans/bag.shootkit.yaml',
    '/',
    '',
  ])('not %j', (path) => {
    expect(isInside(folder, file(path))).toBe(false);
  });

  test('a folder with a slash at its end, and the root, hold what is below them', () => {
    expect(isInside(file('/home/plans/'), file('/home/plans/a.shootplan.yaml'))).toBe(true);
    expect(isInside(file('/'), file('/a.shootplan.yaml'))).toBe(true);
  });

  test('a drive letter counts in either case, a folder name does not', () => {
    expect(isInside(file('/C:/Plans'), file('/c:/Plans/a.shootplan.yaml'))).toBe(true);
    expect(isInside(file('/C:/Plans'), file('/C:/plans/a.shootplan.yaml'))).toBe(false);
  });

  test('another scheme or another authority is another place', () => {
    const remote = { scheme: 'vscode-vfs', authority: 'host', path: '/plans' };
    const inside = { ...remote, path: '/plans/a.shootplan.yaml' };
    expect(isInside(remote, inside)).toBe(true);
    expect(isInside(remote, { ...inside, authority: 'HOST' })).toBe(true);
    expect(isInside(remote, { ...inside, authority: 'other' })).toBe(false);
    expect(isInside(remote, { ...inside, scheme: 'file' })).toBe(false);
  });
});
