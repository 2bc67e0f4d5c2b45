import { shortened } from '../quantities/scan.ts';
import type { Span } from '../text/span.ts';
import { type SyntaxCode, type TextFinding, textFinding } from './syntax.ts';
import type { AliasNode, Entry, MapNode, Node } from './tree.ts';

/** Limits of what aliases may stand for. */
export interface AliasBudget {
  /** How many nodes all aliases together may add when the whole tree is walked with every alias written out. */
  readonly nodes: number;
  /** How deep such a walk may go. */
  readonly depth: number;
}

export const usualAliasBudget: AliasBudget = { nodes: 30_000, depth: 64 };

export interface Resolver {
  /**
   * The node itself; for an alias the node it stands for; for a map with `<<` one with the merged entries behind its
   * own, whose keys win. Children are not resolved: ask for each as it is reached. A walk that does so ends, within
   * the budget. An alias that cannot be followed, which is reported, stays one.
   */
  resolve(node: Node): Node;
  /** What is wrong with the aliases and merges of the whole tree, in the order of the text. */
  readonly findings: readonly TextFinding[];
}

const mergeKey = '<<';

/**
 * Follows the aliases of a tree. All are checked at once, in linear time and without writing anything out; nodes are
 * resolved when asked for, and each only once.
 */
export function resolver(root: Node, budget: AliasBudget = usualAliasBudget): Resolver {
  if (!refersElsewhere(root)) return { findings: [], resolve: (node) => node };
  const survey = new Survey(budget);
  survey.walk(root, 0);
  const { targets } = survey;
  const merges = new Merges(targets);
  for (const map of survey.merging) merges.merged(map);
  const findings = [...survey.findings, ...merges.findings].sort((a, b) => a.span.start - b.span.start);
  return {
    findings,
    resolve: (node) => {
      const target = node.kind === 'alias' ? (targets.get(node) ?? node) : node;
      return target.kind === 'map' ? merges.merged(target) : target;
    },
  };
}

/** Whether an alias or a `<<` stands anywhere in the node; most plans have none, and stand for themselves. */
function refersElsewhere(node: Node): boolean {
  if (node.kind === 'map')
    return node.entries.some((entry) => isMerge(entry) || refersElsewhere(entry.value));
  return node.kind === 'sequence' ? node.items.some(refersElsewhere) : node.kind === 'alias';
}

/** What a node amounts to when every alias in it is written out. */
interface Extent {
  readonly nodes: number;
  readonly height: number;
}

/** Goes once through the tree in the order of the text, and finds for each alias the anchor that stands before it. */
class Survey {
  readonly findings: TextFinding[] = [];
  /** The aliases that can be followed. */
  readonly targets = new Map<AliasNode, Node>();
  /** The maps with a `<<`. */
  readonly merging: MapNode[] = [];
  readonly #budget: AliasBudget;
  /** The latest node of each name. Inside the node its extent is not known yet. */
  readonly #anchors = new Map<string, { readonly node: Node; extent: Extent | undefined }>();
  #added = 0;
  #reportedBudget = false;

  constructor(budget: AliasBudget) {
    this.#budget = budget;
  }

  walk(node: Node, depth: number): Extent {
    if (node.kind === 'alias') return this.#alias(node, depth);
    const anchor = node.anchor === undefined ? undefined : { node, extent: undefined as Extent | undefined };
    if (anchor !== undefined) this.#anchors.set(node.anchor as string, anchor);
    const extent = this.#extent(node, depth);
    if (anchor !== undefined) anchor.extent = extent;
    return extent;
  }

  #extent(node: Exclude<Node, AliasNode>, depth: number): Extent {
    let nodes = 1;
    let height = 1;
    const add = (child: Node): void => {
      const extent = this.walk(child, depth + 1);
      nodes += extent.nodes;
      height = Math.max(height, extent.height + 1);
    };
    if (node.kind === 'sequence') node.items.forEach(add);
    if (node.kind === 'map') {
      for (const { key, value } of node.entries) {
        add(key);
        add(value);
      }
      if (node.entries.some(isMerge)) this.merging.push(node);
    }
    return { nodes, height };
  }

  #alias(alias: AliasNode, depth: number): Extent {
    const nothing = { nodes: 1, height: 1 };
    const anchor = this.#anchors.get(alias.name);
    if (anchor === undefined) {
      this.#unknown(alias);
      return nothing;
    }
    if (anchor.extent === undefined) {
      const message = `*${shortened(alias.name)} refers to itself: it stands inside the block named &${shortened(alias.name)}. Remove it.`;
      this.#report('syntax/alias-cycle', alias, message, anchor.node.span);
      return nothing;
    }
    const { nodes, height } = anchor.extent;
    if (this.#added + nodes > this.#budget.nodes || depth + height > this.#budget.depth) {
      this.#tooMuch(alias);
      return nothing;
    }
    this.#added += nodes;
    this.targets.set(alias, anchor.node);
    return anchor.extent;
  }

  #unknown(alias: AliasNode): void {
    const names = nearest(alias.name, [...this.#anchors.keys()]);
    const known = names.slice(0, 3).map((name) => `*${shortened(name)}`);
    const hint =
      known.length === 0
        ? `Name a value further above with &${shortened(alias.name)}.`
        : `Names given further above: ${known.join(', ')}${names.length > 3 ? ' …' : ''}.`;
    const message = `Unknown alias ${shortened(alias.name)}: no value further above is named &${shortened(alias.name)}. ${hint}`;
    const facts = { name: alias.name, known: names.slice(0, 20) };
    this.findings.push(textFinding('syntax/unknown-alias', alias.span, message, { facts }));
  }

  #tooMuch(alias: AliasNode): void {
    if (this.#reportedBudget) return;
    this.#reportedBudget = true;
    const { nodes, depth } = this.#budget;
    const message = `Alias expansion too large: written out, the aliases up to here stand for more than ${nodes} values, or more than ${depth} levels. This one and others like it are ignored. Use fewer aliases inside aliased blocks.`;
    const facts = { nodes, depth };
    this.findings.push(textFinding('syntax/alias-budget', alias.span, message, { facts }));
  }

  #report(code: SyntaxCode, alias: AliasNode, message: string, anchor: Span): void {
    this.findings.push(
      textFinding(code, alias.span, message, {
        facts: { name: alias.name },
        related: [{ span: anchor, message: `The block named &${shortened(alias.name)}.` }],
      }),
    );
  }
}

/** Writes the entries behind `<<` into the maps that ask for them. */
class Merges {
  readonly findings: TextFinding[] = [];
  readonly #targets: ReadonlyMap<AliasNode, Node>;
  readonly #made = new Map<MapNode, MapNode>();

  constructor(targets: ReadonlyMap<AliasNode, Node>) {
    this.#targets = targets;
  }

  /** The map with what it merges; the same map when it merges nothing. */
  merged(map: MapNode): MapNode {
    const known = this.#made.get(map);
    if (known !== undefined) return known;
    if (!map.entries.some(isMerge)) return map;
    const entries = new Map<string, Entry>();
    const keep = (entry: Entry): void => {
      if (!entries.has(entry.key.text)) entries.set(entry.key.text, entry);
    };
    for (const entry of map.entries) if (!isMerge(entry)) keep(entry);
    for (const entry of map.entries.filter(isMerge)) {
      for (const source of this.#sources(entry.value)) for (const merged of source.entries) keep(merged);
    }
    const made: MapNode = { ...map, entries: [...entries.values()] };
    this.#made.set(map, made);
    return made;
  }

  /** The maps to merge, the first one winning over the later ones. */
  #sources(value: Node): readonly MapNode[] {
    const sources: MapNode[] = [];
    const listed = this.#followed(value);
    for (const item of listed?.kind === 'sequence' ? listed.items : [value]) {
      const node = this.#followed(item);
      if (node?.kind === 'map') sources.push(this.merged(node));
      else if (node !== undefined) {
        const message = 'Behind << stands a map to merge, or a list of maps: write `<<: *name`.';
        this.findings.push(textFinding('syntax/merge', item.span, message));
      }
    }
    return sources;
  }

  /** The node an alias stands for; undefined when it cannot be followed, which has been reported. */
  #followed(node: Node): Node | undefined {
    return node.kind === 'alias' ? this.#targets.get(node) : node;
  }
}

function isMerge(entry: Entry): boolean {
  return entry.key.style === 'plain' && entry.key.text === mergeKey;
}

/** The names in order of how few letters must be changed to get to them; of equal ones the first. */
function nearest(name: string, names: readonly string[]): readonly string[] {
  const near = names
    .slice(0, 200)
    .map((other) => ({ other, distance: distance(name.slice(0, 40), other.slice(0, 40)) }));
  return near.sort((a, b) => a.distance - b.distance).map(({ other }) => other);
}

/** How many letters must be added, removed or replaced (Levenshtein 1966). */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const replaced = (row[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min((row[j] as number) + 1, (next[j - 1] as number) + 1, replaced));
    }
    row = next;
  }
  return row[b.length] as number;
}
