import { uriKey } from '../../plan/kitPath.ts';

/** The paths from a plan to kit files, as the plan would write them; those elsewhere than in its own file system are left out. */
export function kitPaths(planUri: string, kits: readonly string[]): readonly string[] {
  const from = partsOf(planUri);
  if (from === undefined) return [];
  const paths = kits.flatMap((kit) => {
    const to = partsOf(kit);
    if (to === undefined || to.root !== from.root) return [];
    const folders = from.segments.slice(0, -1);
    let common = 0;
    while (
      common < folders.length &&
      common < to.segments.length - 1 &&
      folders[common] === to.segments[common]
    ) {
      common += 1;
    }
    const up = folders.slice(common).map(() => '..');
    return [[...(up.length === 0 ? ['.'] : up), ...to.segments.slice(common)].join('/')];
  });
  return [...new Set(paths)].sort();
}

function partsOf(uri: string): { readonly root: string; readonly segments: readonly string[] } | undefined {
  const match = /^([a-z][a-z0-9+.-]*:(?:\/\/[^/?#]*)?)(\/[^?#]*)$/i.exec(uriKey(uri));
  const [, root, path] = match ?? [];
  return root === undefined || path === undefined ? undefined : { root, segments: path.slice(1).split('/') };
}
