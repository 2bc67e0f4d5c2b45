import type { Checkable, Rule } from '../analysis.ts';
import { darkOf } from './dark.ts';
import { headOf } from './related.ts';

/**
 * Somebody at home should know where you go and when you are back: the advice of mountain rescue everywhere. Asked for only where
 * the plan speaks of a party, and where the day touches the dark or a spot has hazards. Common practice, no source.
 */
export const contact: Rule = {
  code: 'safety/contact-not-told',
  severity: 'warning',
  doc: 'The day touches the dark or has hazards, and nobody at home is told. Tell somebody where you go and when you are back, and write `contact: told`.',
  check(analysis, report) {
    const party = analysis.plan?.model.party;
    if (party === undefined || party.self.broken.has('contact') || party.contact?.value === 'told') return;
    const why = hazardous(analysis) ? 'has hazards' : touchesDark(analysis) ? 'touches the dark' : undefined;
    if (why === undefined) return;
    report(
      party.contact ?? headOf(party),
      `The day ${why}, and nobody at home is told. Tell somebody where you go and when you are back.`,
      { facts: { hazards: hazardous(analysis), dark: touchesDark(analysis) } },
    );
  },
};

function hazardous({ plan }: Checkable): boolean {
  return (plan?.model.spots ?? []).some(({ hazards }) => (hazards?.length ?? 0) > 0);
}

function touchesDark({ day }: Checkable): boolean {
  return (day?.spots ?? []).some((visit) => darkOf(visit) !== undefined);
}
