/** Where a kit path leads: a URI, or why it is refused. */
export type KitPath = { readonly uri: string } | { readonly refused: string };

/**
 * The URI that a relative path in a plan names, worked out on the plan's own URI so that it holds in every file
 * system. Absolute paths, other schemes, backslashes and patterns are refused. Whether the file may be read at all is
 * for the host to say, which knows the workspace.
 */
export function kitPath(planUri: string, written: string): KitPath {
  const path = written.trim();
  if (path === '') return { refused: 'The path is empty. Write one such as ../kit/field-bag.shootkit.yaml.' };
  if (path.length > 1000) return { refused: 'The path is too long.' };
  if (path.includes('\\')) return { refused: 'Write the path with / between folders, not \\.' };
  if (/^[a-z][a-z0-9+.-]*:/i.test(path)) return { refused: 'Write a path from this file, not an address.' };
  if (path.startsWith('/') || path.startsWith('~')) {
    return {
      refused:
        'Write a path from this file, such as ../kit/field-bag.shootkit.yaml; it cannot begin at the root.',
    };
  }
  if (/[*?<>|\0]/.test(path)) return { refused: 'A path names one file; it cannot hold * ? < > |.' };
  if (!/\.shootkit\.ya?ml$/i.test(path)) return { refused: 'A kit file ends in .shootkit.yaml.' };
  const base = /^([a-z][a-z0-9+.-]*:(?:\/\/[^/?#]*)?)([^?#]*)/i.exec(planUri);
  if (base === null || !(base[2] ?? '').includes('/')) {
    return { refused: 'Save this plan first: a path can be followed only from a saved file.' };
  }
  const folders = (base[2] ?? '').split('/').slice(1, -1);
  for (const part of path.split('/')) {
    if (part === '' || part === '.') continue;
    if (part === '..') {
      if (folders.length === 0) return { refused: 'The path climbs above the topmost folder.' };
      folders.pop();
    } else folders.push(encodeURIComponent(part));
  }
  return { uri: `${base[1]}/${folders.join('/')}` };
}

/** One spelling for all spellings of a URI, for comparing only: `file:///c%3A/x` and `file:///C:/x` are one file. */
export function uriKey(uri: string): string {
  let plain = uri;
  try {
    plain = decodeURIComponent(uri);
  } catch {
    // A stray % stays as it is.
  }
  return plain.replace(
    /^(file:\/\/\/)([a-z]):/i,
    (_, start: string, drive: string) => `${start}${drive.toLowerCase()}:`,
  );
}
