import type { Rule } from '../analysis.ts';

/** Only where the plan itself says that it is open. */
export const permission: Rule = {
  code: 'plan/permission-open',
  severity: 'hint',
  doc: 'The permission for a spot is asked for or unknown. Find out before the day; whoever is responsible there decides.',
  check({ plan }, report) {
    for (const { permission: state } of plan?.model.spots ?? []) {
      if (state?.value === 'asked')
        report(state, 'No answer yet. Ask again before you leave, or plan another spot.');
      if (state?.value === 'unknown')
        report(state, 'Find out whether a permission is needed, from whoever is responsible there.');
    }
  },
};
