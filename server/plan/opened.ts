import type { Kind } from './table.ts';
import type { Node } from './tree.ts';

/**
 * Whether of a value in brackets or braces only the beginning is written, so that it says nothing yet, least of all that
 * there is nothing. What stands behind an open bracket already counts; the pairs of a table, such as the directions of a
 * skyline, count only when all of them are there.
 */
export function isOnlyOpened(text: string, node: Node, shape: Kind['shape']): boolean {
  if (node.kind === 'sequence') {
    return node.flow && node.items.length === 0 && !text.startsWith(']', node.span.end - 1);
  }
  if (node.kind !== 'map' || !node.flow || text.startsWith('}', node.span.end - 1)) return false;
  return node.entries.length === 0 || shape === 'dictionary';
}
