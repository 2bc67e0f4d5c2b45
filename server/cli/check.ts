import { visible } from '../features/visible.ts';
import type { Severity } from '../text/finding.ts';
import type { Place } from '../text/span.ts';
import type { Analysed } from './analyse.ts';
import type { Unread } from './inputs.ts';
import { type Output, painted } from './output.ts';
import { pathOf, type Region, Regions } from './placed.ts';

const ranks: Readonly<Record<Severity, number>> = { error: 3, warning: 2, hint: 1 };

/** Whether any finding is at least as severe as `severity`. */
export function anyFrom(inputs: readonly Analysed[], severity: Severity): boolean {
  return inputs.some(({ analysis }) =>
    analysis.findings.some((finding) => ranks[finding.severity] >= ranks[severity]),
  );
}

const colours = { error: 'red', warning: 'yellow', hint: 'cyan' } as const;

/** One line a finding, `path:line:column: severity: message [code]`, related places below it, and a line that counts. */
export function checkText(inputs: readonly Analysed[], { colour }: Pick<Output, 'colour'>): string {
  const lines: string[] = [];
  for (const input of inputs) {
    const regions = new Regions(input);
    const where = (place: Place) => {
      const { line, column } = regions.of(place);
      return `${visible(pathOf(place.uri, input))}:${line}:${column}`;
    };
    for (const finding of input.analysis.findings) {
      const severity = painted(finding.severity, colours[finding.severity], colour);
      const place = painted(where(finding), 'bold', colour);
      lines.push(`${place}: ${severity}: ${visible(finding.message)} [${finding.code}]`);
      for (const related of finding.related) lines.push(`  ${where(related)}: ${visible(related.message)}`);
    }
  }
  lines.push(summary(inputs));
  return `${lines.join('\n')}\n`;
}

function summary(inputs: readonly Analysed[]): string {
  const all = inputs.flatMap(({ analysis }) => analysis.findings);
  const files = `${inputs.length} ${inputs.length === 1 ? 'file' : 'files'}`;
  if (all.length === 0) return `Nothing found in ${files}.`;
  const counts = (['error', 'warning', 'hint'] as const).flatMap((severity) => {
    const count = all.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [`${count} ${severity}${count === 1 ? '' : 's'}`];
  });
  return `${counts.join(', ')} in ${files}.`;
}

/** The same for machines, with the files that could not be read. Lines and columns count from 1, columns in UTF-16 code units; ends are exclusive. */
export function checkJson(inputs: readonly Analysed[], unread: readonly Unread[]): string {
  const files = inputs.map((input) => {
    const regions = new Regions(input);
    const place = (at: Place): Region & { path: string } => ({
      path: pathOf(at.uri, input),
      ...regions.of(at),
    });
    return {
      path: pathOf(input.analysis.uri, input),
      kind: input.analysis.kind,
      findings: input.analysis.findings.map((finding) => ({
        code: finding.code,
        severity: finding.severity,
        message: finding.message,
        ...regions.of(finding),
        related: finding.related.map((related) => ({ message: related.message, ...place(related) })),
        facts: finding.facts,
      })),
    };
  });
  return `${JSON.stringify({ version: 1, files, unread }, null, 2)}\n`;
}
