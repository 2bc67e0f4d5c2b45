import type { Kind } from '../../plan/table.ts';
import type { Quantity } from '../../quantities/quantity.ts';
import type { KeyPlace } from '../locate.ts';
import { code, paragraphs } from '../markdown.ts';
import type { HoverKind } from './scene.ts';

/** A key: what it is, how it may be written. The words are those of the table of fields. */
export function keyText({ name, field, section }: KeyPlace): string {
  return paragraphs(
    `\`${name}\` of a ${section.name}${field.required === true ? ' (required)' : ''}`,
    field.doc,
    kindText(field.kind, field.doc),
  );
}

/** A value of which nothing more is known than what its kind is. */
export const fieldHover: HoverKind = ({ mark }) =>
  paragraphs(
    `\`${mark.name}\`: ${mark.value === undefined ? 'not read' : code(mark.value.text)}`,
    mark.field.doc,
    mark.quantity === undefined ? kindText(mark.field.kind) : quantityText(mark.quantity),
  );

/** What a field takes; `said` is what its own text says already. */
function kindText(kind: Kind, said = ''): string {
  switch (kind.shape) {
    case 'scalar':
      return quantityText(kind.quantity);
    case 'reference':
      return `The id of a ${kind.target}.`;
    case 'list':
      return paragraphs('A list; one thing may stand without brackets.', kindText(kind.of, said));
    case 'section':
      return paragraphs(kind.section.doc !== said && kind.section.doc, `Keys: ${keys(kind.section.fields)}`);
    case 'dictionary':
      return `Pairs of ${kind.keys.name} and ${kind.values.name}.`;
    case 'either':
      return paragraphs(quantityText(kind.quantity), `Or keys: ${keys(kind.section.fields)}`);
  }
}

function keys(fields: object): string {
  return Object.keys(fields)
    .map((key) => `\`${key}\``)
    .join(', ');
}

function quantityText({ name, documentation, examples }: Quantity<unknown>): string {
  const shown = examples.some((example) => documentation.includes(example));
  return paragraphs(
    `*${name}* — ${documentation}`,
    shown
      ? undefined
      : examples
          .slice(0, 4)
          .map((example) => code(example))
          .join(', '),
  );
}
