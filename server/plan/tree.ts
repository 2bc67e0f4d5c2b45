import type { Span } from '../text/span.ts';

/**
 * What a text says, free of any library: scalars, maps, sequences, aliases and places left empty.
 * Spans are UTF-16 offsets into the text as received. Nodes are never changed once made.
 */
export type Node = ScalarNode | MapNode | SequenceNode | AliasNode | EmptyNode;

interface Anchored {
  /** The name after `&`, where the node has one. */
  readonly anchor?: string;
}

/** A word, a number, a text: always read as it was typed, never as a type of YAML's. */
export interface ScalarNode extends Anchored {
  readonly kind: 'scalar';
  /** The decoded content; for a plain scalar the source text. */
  readonly text: string;
  /** The whole token, quotes included; for a block scalar from its `|` or `>`. */
  readonly span: Span;
  /** Inside the quotes; for a block scalar its lines without the indicator. */
  readonly content: Span;
  /** Whether `content` maps to `text` one to one: no escapes, no folded lines. */
  readonly exact: boolean;
  readonly style: 'plain' | 'single' | 'double' | 'block';
}

export interface MapNode extends Anchored {
  readonly kind: 'map';
  readonly span: Span;
  /** In the order of the text, keys that stand twice included once: the first. */
  readonly entries: readonly Entry[];
  /** Whether it is written with braces. */
  readonly flow: boolean;
}

export interface Entry {
  readonly key: ScalarNode;
  readonly value: Node;
  /** From the start of the key to the end of the value. */
  readonly span: Span;
}

export interface SequenceNode extends Anchored {
  readonly kind: 'sequence';
  readonly span: Span;
  readonly items: readonly Node[];
  /** Whether it is written with brackets. */
  readonly flow: boolean;
}

/** `*name`; followed by plan/aliases.ts. */
export interface AliasNode {
  readonly kind: 'alias';
  readonly name: string;
  readonly span: Span;
}

/** Nothing stands where a value could. */
export interface EmptyNode extends Anchored {
  readonly kind: 'empty';
  /** Zero-width: the place where the value would stand. */
  readonly span: Span;
}
