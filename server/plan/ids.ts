import { nearest } from '../quantities/nearest.ts';
import { firstOf } from '../quantities/words.ts';
import type { Finding } from '../text/finding.ts';
import type { Place } from '../text/span.ts';
import type { Bag } from './bag.ts';
import type { PlanModel } from './fields.ts';
import type { Kit } from './kitFields.ts';
import type { Target, Value } from './table.ts';
import type { Use } from './uses.ts';

/** Where an id is declared. */
export interface Declaration extends Place {
  readonly target: Target;
  readonly id: string;
}

type Named = { readonly id?: Value<string> };

/** Every id that a plan declares, in the order of the text. */
export function planDeclarations(plan: PlanModel): readonly Declaration[] {
  const spots = plan.spots ?? [];
  return [...declared('spot', spots), ...spots.flatMap((spot) => declared('shot', spot.shots))];
}

/** Every id that a kit declares, in the order of the table. */
export function kitDeclarations(kit: Kit): readonly Declaration[] {
  return [
    ...declared('body', kit.bodies),
    ...declared('film', kit.film),
    ...declared('lens', kit.lenses),
    ...declared('filter', kit.filters),
  ];
}

function declared(target: Target, things: readonly Named[] | undefined): readonly Declaration[] {
  return (things ?? []).flatMap(({ id }) =>
    id === undefined ? [] : [{ target, id: id.value, uri: id.uri, span: id.span }],
  );
}

/** The second and every further declaration of an id among things of its sort: `plan/duplicate-id`. */
export function duplicateIds(declarations: readonly Declaration[]): readonly Finding[] {
  const first = new Map<string, Declaration>();
  const findings: Finding[] = [];
  for (const declaration of declarations) {
    const key = `${declaration.target} ${declaration.id}`;
    const before = first.get(key);
    if (before === undefined) {
      first.set(key, declaration);
      continue;
    }
    // The same place again through an alias is no second declaration.
    if (before.uri === declaration.uri && before.span.start === declaration.span.start) continue;
    const { uri, span, target, id } = declaration;
    findings.push({
      code: 'plan/duplicate-id',
      severity: 'error',
      uri,
      span,
      message: `There is already a ${target} “${id}”. Give this one another id.`,
      related: [{ uri: before.uri, span: before.span, message: `The first ${target} “${id}”.` }],
      facts: { target, id },
    });
  }
  return findings;
}

const inKit: ReadonlySet<Target> = new Set<Target>(['body', 'film', 'lens', 'filter']);

/** Uses of ids that nothing declares: `plan/unknown-id`. Silent about a kit that is not at hand. */
export function unknownIds(
  uses: readonly Use[],
  declarations: readonly Declaration[],
  bag: Bag,
): readonly Finding[] {
  const known = new Map<Target, Set<string>>();
  for (const { target, id } of declarations) {
    const ids = known.get(target) ?? new Set<string>();
    known.set(target, ids.add(id));
  }
  const findings: Finding[] = [];
  for (const use of uses) {
    const { target, id, uri, span } = use;
    if (known.get(target)?.has(id) === true) continue;
    if (inKit.has(target) && bag.state === 'unread') continue;
    const ids = [...(known.get(target) ?? [])];
    const several = severalIds(use, known.get(target));
    if (several !== undefined) {
      findings.push(several);
      continue;
    }
    const close = nearest(id, ids);
    findings.push({
      code: 'plan/unknown-id',
      severity: 'error',
      uri,
      span,
      message: unknownMessage(target, id, ids, close, bag),
      related: [],
      facts: {
        target,
        id,
        ...(close === undefined ? {} : { rewrite: close, rewriteStart: span.start, rewriteEnd: span.end }),
      },
    });
  }
  return findings;
}

/** `nd6 + pol` where a list belongs: every part of it is an id. */
function severalIds(use: Use, known: ReadonlySet<string> | undefined): Finding | undefined {
  const { target, id, uri, span, several } = use;
  if (several === undefined || known === undefined) return undefined;
  const parts = id
    .slice(0, 200)
    .split(/[\s+,;/&|]+/)
    .filter((part) => part !== '' && part !== 'and');
  if (parts.length < 2 || id.length > 200 || !parts.every((part) => known.has(part))) return undefined;
  const items = parts.join(', ');
  const rewrite = several.room === 'list' ? `[${items}]` : items;
  return {
    code: 'plan/unknown-id',
    severity: 'error',
    uri,
    span,
    message: `“${id.slice(0, 40)}” names ${parts.length} ${target}s. Write a list: [${items}].`,
    related: [],
    facts: { target, id, rewrite, rewriteStart: several.span.start, rewriteEnd: several.span.end },
  };
}

function unknownMessage(
  target: Target,
  id: string,
  ids: readonly string[],
  close: string | undefined,
  bag: Bag,
): string {
  const where = inKit.has(target) ? 'in the kit' : 'in this plan';
  const begin = `There is no ${target} “${id.slice(0, 40)}” ${where}.`;
  if (close !== undefined) return `${begin} Did you mean ${close}?`;
  if (inKit.has(target) && bag.state === 'none')
    return `${begin} The plan names no kit: write \`kit: ../kit/NAME.shootkit.yaml\`.`;
  if (ids.length === 0) return `${begin} There is none at all yet.`;
  return `${begin} There are: ${firstOf(ids)}.`;
}
