import type { Analysis } from '../../analysis.ts';
import type { Target } from '../../plan/table.ts';

/** An id that may be written, and a few words beside it. */
export interface Offered {
  readonly id: string;
  readonly detail?: string;
}

/** Every id of a sort that the plan and its kit declare, in their order, once each. */
export function offeredIds(analysis: Analysis, target: Target): readonly Offered[] {
  const offered = new Map<string, Offered>();
  for (const declaration of analysis.declarations) {
    const { id } = declaration;
    if (declaration.target !== target || id === '' || offered.has(id)) continue;
    const detail = detailOf(analysis, target, id);
    offered.set(id, { id, ...(detail === undefined || detail === '' ? {} : { detail }) });
  }
  return [...offered.values()];
}

function detailOf(analysis: Analysis, target: Target, id: string): string | undefined {
  const { bag } = analysis;
  switch (target) {
    case 'spot':
      return spots(analysis).find((spot) => spot.id?.value === id)?.name?.text;
    case 'shot': {
      const shot = spots(analysis)
        .flatMap((spot) => spot.shots ?? [])
        .find((each) => each.id?.value === id);
      return joined(shot?.effect?.text, shot?.name?.text);
    }
    case 'body': {
      const body = bag.bodies.get(id);
      return joined(body?.name?.text, body?.sensor?.text);
    }
    case 'film': {
      const film = bag.films.get(id);
      return joined(film?.name?.text, film?.iso === undefined ? undefined : `ISO ${film.iso.text}`);
    }
    case 'lens': {
      const lens = bag.lenses.get(id);
      return joined(lens?.focal?.text, lens?.aperture?.text, lens?.name?.text);
    }
    case 'filter': {
      const filter = bag.filters.get(id);
      const strength = filter?.measured ?? filter?.loss ?? filter?.strength;
      const measured = filter?.measured === undefined ? '' : ' measured';
      return joined(filter?.kind?.text, strength === undefined ? undefined : strength.text + measured);
    }
  }
}

function spots(analysis: Analysis) {
  return analysis.plan?.model.spots ?? [];
}

function joined(...parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join(', ');
}
