import type { Rule } from '../analysis.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { shotBracket } from '../schedule/scene.ts';
import { also, headOf } from './related.ts';
import { shotsOf } from './shots.ts';

/** The frames of a bracket against the ends of the dial and the limit of bulb. The middle frame has rules of its own. */
export const bracketBeyondDial: Rule = {
  code: 'exposure/bracket-beyond-dial',
  severity: 'warning',
  doc: 'A frame of the bracket is longer than the dial and the body’s bulb allow, or shorter than the dial goes: that frame comes out wrong. Take less filter or more, another aperture or ISO, or a smaller step.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { bracket } = shot.shot;
      if (bracket === undefined || bracket.self.broken.size > 0) continue;
      const frames = shotBracket(shot)?.frames ?? [];
      const wrong = frames.filter(
        ({ setting, offsetStops }) =>
          offsetStops !== 0 &&
          (setting.kind === 'dial' ? setting.reach !== 'within' : setting.overLimitStops !== undefined),
      );
      const first = wrong[0];
      if (first === undefined) continue;
      const longest = formatShutter(shot.gear.dial.longest.nominalSeconds);
      const shortest = formatShutter(shot.gear.dial.shortest.nominalSeconds);
      const times = wrong.map(({ wantedSeconds }) => formatShutter(wantedSeconds)).join(', ');
      const beyond =
        first.setting.kind === 'bulb'
          ? 'beyond the longest bulb exposure of the body'
          : `outside the dial, ${shortest} to ${longest}`;
      report(
        bracket.frames ?? headOf(bracket),
        `${wrong.length === 1 ? 'One frame' : `${wrong.length} frames`} of this bracket cannot be set: ${times} ${wrong.length === 1 ? 'lies' : 'lie'} ${beyond}. Change filter, aperture or ISO so that all frames fit, or take a smaller step.`,
        {
          related: also(shot.gear.body?.shutter, 'The dial of the body.'),
          facts: { wantedSeconds: wrong.map(({ wantedSeconds }) => wantedSeconds) },
        },
      );
    }
  },
};
