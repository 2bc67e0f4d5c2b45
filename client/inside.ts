/** The parts of a URI that say where a file is; a `vscode.Uri` fits. */
export interface Location {
  readonly scheme: string;
  readonly authority: string;
  /** Decoded, with `/` between the segments. */
  readonly path: string;
}

/**
 * Whether a file lies in a folder (or is it), judged by the text of the URIs: same scheme, same authority, and
 * the path below the folder's once `.` and `..` are worked out. Where in doubt the answer is no: a back slash
 * in the path, which is a separator on some systems only, or another case of the letters. A drive letter
 * matches in either case.
 */
export function isInside(folder: Location, file: Location): boolean {
  if (file.scheme !== folder.scheme || file.authority.toLowerCase() !== folder.authority.toLowerCase())
    return false;
  const steps = resolved(file.path);
  const base = resolved(folder.path);
  if (steps === undefined || base === undefined) return false;
  return base.every((step, index) => step === steps[index]);
}

/** The segments of a path without `.`, `..` and empty ones; nothing when it climbs above the root. */
function resolved(path: string): string[] | undefined {
  if (path.includes('\\') || path.includes('\0')) return undefined;
  const steps: string[] = [];
  for (const step of path.split('/')) {
    if (step === '' || step === '.') continue;
    if (step !== '..') steps.push(/^[A-Z]:$/.test(step) ? step.toLowerCase() : step);
    else if (steps.pop() === undefined) return undefined;
  }
  return steps;
}
