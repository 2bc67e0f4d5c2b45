import { createHash } from 'node:crypto';
import { pathToFileURL } from 'node:url';
import { rules } from '../checks/list.ts';
import type { Finding, Severity } from '../text/finding.ts';
import type { Place } from '../text/span.ts';
import type { Analysed } from './analyse.ts';
import type { Unread } from './inputs.ts';
import { Regions, reportUri, repositoryOf } from './placed.ts';

/** The level that SARIF gives to a severity. */
const levels: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', hint: 'note' };

/**
 * Findings as a log of the Static Analysis Results Interchange Format 2.1.0 (OASIS Standard, 27 March 2020). Files are
 * named relative to the repository in which the command runs, or else to the folder.
 */
export function sarif(inputs: readonly Analysed[], unread: readonly Unread[], version: string): string {
  const root = repositoryOf(process.cwd()) ?? process.cwd();
  const driver = {
    name: 'Shoot Plan',
    version,
    semanticVersion: version,
    rules: rules.map(({ code, doc, severity }) => ({
      id: code,
      shortDescription: { text: firstSentence(withoutMarkup(doc)) },
      fullDescription: { text: withoutMarkup(doc) },
      help: { text: withoutMarkup(doc), markdown: doc },
      defaultConfiguration: { level: levels[severity] },
    })),
  };
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver },
        columnKind: 'utf16CodeUnits',
        originalUriBaseIds: {
          ROOT: {
            uri: pathToFileURL(`${root}/`).href,
            description: { text: 'The repository, or the folder in which the command was run.' },
          },
        },
        invocations: [
          {
            executionSuccessful: unread.length === 0,
            toolExecutionNotifications: unread.map(({ message }) => ({
              level: 'error',
              message: { text: message },
            })),
          },
        ],
        artifacts: inputs.map(({ analysis }) => ({ location: artifactLocation(analysis.uri, root) })),
        results: inputs.flatMap((input) => results(input, root)),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

function results(input: Analysed, root: string) {
  const regions = new Regions(input);
  const seen = new Map<string, number>();
  return input.analysis.findings.map((finding) => {
    const print = `${finding.code}\n${reportUri(finding.uri, root)}\n${regions.lineText(finding).trim()}`;
    const before = seen.get(print) ?? 0;
    seen.set(print, before + 1);
    const index = rules.findIndex(({ code }) => code === finding.code);
    return {
      ruleId: finding.code,
      ...(index < 0 ? {} : { ruleIndex: index }),
      level: levels[finding.severity],
      message: { text: finding.message },
      locations: [{ physicalLocation: physicalLocation(finding, regions, root) }],
      ...relatedLocations(finding, regions, root),
      // What is found, in which file and in which words: the same when lines are added above it.
      partialFingerprints: { 'findingInLine/v1': hash(`${print}\n${before}`) },
      properties: { facts: finding.facts },
    };
  });
}

function relatedLocations({ related }: Finding, regions: Regions, root: string) {
  if (related.length === 0) return {};
  return {
    relatedLocations: related.map((place, id) => ({
      id,
      message: { text: place.message },
      physicalLocation: physicalLocation(place, regions, root),
    })),
  };
}

function physicalLocation(place: Place, regions: Regions, root: string) {
  const { line, column, endLine, endColumn } = regions.of(place);
  return {
    artifactLocation: artifactLocation(place.uri, root),
    region: { startLine: line, startColumn: column, endLine, endColumn },
  };
}

function artifactLocation(uri: string, root: string) {
  const shown = reportUri(uri, root);
  return /^[a-z][a-z0-9+.-]*:/i.test(shown) ? { uri: shown } : { uri: shown, uriBaseId: 'ROOT' };
}

function hash(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 32);
}

function withoutMarkup(markdown: string): string {
  return markdown.replace(/`/g, '');
}

function firstSentence(text: string): string {
  return /^.*?[.!?](?=\s|$)/s.exec(text)?.[0] ?? text;
}
