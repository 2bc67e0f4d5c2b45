import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { Finding, Severity } from '../text/finding.ts';
import type { Lines } from '../text/lines.ts';
import type { Client } from './client.ts';
import { toRange } from './convert.ts';

export const diagnosticSource = 'shoot plan';

/** A hint of ours is worth reading, and editors leave their own hints out of the list of problems: so, information. */
const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  hint: DiagnosticSeverity.Information,
};

/** A finding as the protocol shows it. `linesOf` knows the texts that the finding's related places lie in. */
export function toDiagnostic(
  finding: Finding,
  lines: Lines,
  linesOf: (uri: string) => Lines | undefined,
  client: Client,
): Diagnostic {
  const { code, severity, span, message, facts } = finding;
  const related = finding.related.flatMap((place) => {
    const there = linesOf(place.uri);
    if (there === undefined) return [];
    return [{ location: { uri: place.uri, range: toRange(there, place.span) }, message: place.message }];
  });
  const shown = {
    range: toRange(lines, span),
    severity: severities[severity],
    code,
    source: diagnosticSource,
    data: facts,
  };
  if (client.relatedInformation) {
    return { ...shown, message, ...(related.length === 0 ? {} : { relatedInformation: related }) };
  }
  const places = related.map(
    (place) => `${place.message.replace(/[.:]$/, '')} (line ${place.location.range.start.line + 1}).`,
  );
  return { ...shown, message: [message, ...places].join('\n') };
}
