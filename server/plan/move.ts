import type { Span } from '../text/span.ts';
import type { TextFinding } from './syntax.ts';
import type { Entry, Node, ScalarNode } from './tree.ts';

/** Where an offset of one text stands in another; never decreasing. */
export type OffsetMap = (offset: number) => number;

export function movedSpan(span: Span, to: OffsetMap): Span {
  return { start: to(span.start), end: to(span.end) };
}

/** The same node, with every offset mapped. */
export function movedNode(node: Node, to: OffsetMap): Node {
  switch (node.kind) {
    case 'scalar':
      return movedScalar(node, to);
    case 'map': {
      const entries: Entry[] = node.entries.map((entry) => ({
        key: movedScalar(entry.key, to),
        value: movedNode(entry.value, to),
        span: movedSpan(entry.span, to),
      }));
      return { ...node, span: movedSpan(node.span, to), entries };
    }
    case 'sequence':
      return {
        ...node,
        span: movedSpan(node.span, to),
        items: node.items.map((item) => movedNode(item, to)),
      };
    default:
      return { ...node, span: movedSpan(node.span, to) };
  }
}

function movedScalar(node: ScalarNode, to: OffsetMap): ScalarNode {
  return { ...node, span: movedSpan(node.span, to), content: movedSpan(node.content, to) };
}

/** The same finding, with every offset mapped. */
export function movedFinding(finding: TextFinding, to: OffsetMap): TextFinding {
  return {
    ...finding,
    span: movedSpan(finding.span, to),
    related: finding.related.map((related) => ({ ...related, span: movedSpan(related.span, to) })),
  };
}
