import { type Bag, packBag } from './plan/bag.ts';
import { planSection } from './plan/fields.ts';
import { type Declaration, duplicateIds, kitDeclarations, planDeclarations, unknownIds } from './plan/ids.ts';
import { kitSection } from './plan/kitFields.ts';
import { kitPath, uriKey } from './plan/kitPath.ts';
import { type ReadDocument, readDocument } from './plan/reader.ts';
import { createReadings, type Readings } from './plan/readings.ts';
import type { Dictionary } from './plan/table.ts';
import { type ChunkCache, createChunkCache } from './plan/yaml.ts';
import { type Day, planDay } from './schedule/day.ts';
import { createMemory, type Memory } from './schedule/memory.ts';
import { type Thresholds, thresholdsWith } from './schedule/thresholds.ts';
import type { Facts, Finding, Fix, Related, Severity } from './text/finding.ts';
import type { Place, Span } from './text/span.ts';

export type PlanDocument = ReadDocument<typeof planSection.fields>;
export type KitDocument = ReadDocument<typeof kitSection.fields>;

/** A document as it stands: its URI as the client spells it, and its text. */
export interface Source {
  readonly uri: string;
  readonly text: string;
}

/** What the host knows of another file. `pending`: it is being read; the caller analyses again when it is there. */
export type Opened =
  | { readonly kind: 'text'; readonly uri: string; readonly text: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'refused'; readonly reason: string }
  | { readonly kind: 'pending' };

/** What the user has set for all plans; a plan's own `checks` and `thresholds` go before it. */
export interface Settings {
  readonly checks?: ReadonlyMap<string, Severity | 'off'>;
  readonly thresholds?: ReadonlyMap<string, number>;
}

export interface AnalysisOptions {
  /** Every code that a finding may have; those with a check are run. */
  readonly rules: readonly Rule[];
  /** Looks up a kit file by its URI. Nothing else is ever opened. */
  readonly open?: (uri: string) => Opened;
  readonly settings?: Settings;
  readonly memory?: AnalysisMemory;
  /** Told of a rule that failed, which is then passed over; without it the fault is thrown, as tests want it. */
  readonly onFault?: (code: string, fault: unknown) => void;
}

/** A document, what it comes to, and what is to be said about it. Never changed once made. */
export interface Analysis {
  readonly uri: string;
  readonly text: string;
  readonly kind: 'plan' | 'kit';
  /** The document itself, when it is a plan. */
  readonly plan?: PlanDocument;
  /** The document itself, when it is a kit; for a plan, the kit file that it names and that could be read. */
  readonly kit?: KitDocument;
  /** The URI that the plan's `kit` names, and what came of opening it. */
  readonly kitFile?: { readonly uri: string; readonly place: Place; readonly opened: Opened };
  readonly bag: Bag;
  readonly day?: Day;
  readonly thresholds: Thresholds;
  /** Every id declared in the plan and its kit. */
  readonly declarations: readonly Declaration[];
  /** About this document only, in the order of its text. */
  readonly findings: readonly Finding[];
  readonly memory: AnalysisMemory;
}

/** What a rule sees: everything but the findings. */
export type Checkable = Omit<Analysis, 'findings'>;

/** Reports one finding at a place. The severity is the rule's unless another is given. */
export type Report = (
  place: Place,
  message: string,
  more?: { readonly related?: readonly Related[]; readonly facts?: Facts; readonly severity?: Severity },
) => void;

/** One code: what it says, why, on what formula and source; its check; how to mend it. */
export interface Rule {
  /** `family/name`. */
  readonly code: string;
  readonly severity: Severity;
  /** For people: what it means and what to do. Markdown, one paragraph. */
  readonly doc: string;
  /** Left out for codes that reading itself reports. */
  readonly check?: (analysis: Checkable, report: Report) => void;
  /** Mechanical mends, from the facts of the finding and never from its message. */
  readonly fixes?: (finding: Finding, analysis: Analysis) => readonly Fix[];
}

/** What one document's analyses leave for the next: parsed pieces of text, readings of scalars, skies. Drop it when the document is closed. */
export interface AnalysisMemory {
  readonly sky: Memory;
  readonly chunks: ChunkCache;
  readonly readings: Readings;
  kit?: KitDocument;
}

export function createAnalysisMemory(sky: Memory = createMemory()): AnalysisMemory {
  return { sky, chunks: createChunkCache(), readings: createReadings() };
}

/** Analyses a plan or a kit. Never throws on any text; one broken field blanks only what depends on it. */
export function analyse(source: Source, options: AnalysisOptions): Analysis {
  const memory = options.memory ?? createAnalysisMemory();
  return isKit(source) ? analyseKit(source, options, memory) : analysePlan(source, options, memory);
}

/** A kit by its name; a document without a name of that sort by what it says first. */
function isKit({ uri, text }: Source): boolean {
  if (/\.shootkit\.ya?ml$/i.test(uri)) return true;
  if (/\.shootplan\.ya?ml$/i.test(uri)) return false;
  return /^kit[ \t]*:[ \t]*[^\s#{]/m.test(text) && !/^(plan|spots|date)[ \t]*:/m.test(text);
}

function analyseKit(source: Source, options: AnalysisOptions, memory: AnalysisMemory): Analysis {
  const kit = readDocument(source.uri, source.text, kitSection, memory.chunks, memory.readings);
  const declarations = kitDeclarations(kit.model);
  const analysis: Checkable = {
    ...source,
    kind: 'kit',
    kit,
    bag: packBag('ready', kit.model, kit.model.kit?.value),
    thresholds: thresholdsWith(options.settings?.thresholds ?? new Map()),
    declarations,
    memory,
  };
  return withFindings(analysis, [...kit.findings, ...duplicateIds(declarations)], options, new Map());
}

function analysePlan(source: Source, options: AnalysisOptions, memory: AnalysisMemory): Analysis {
  const plan = readDocument(source.uri, source.text, planSection, memory.chunks, memory.readings);
  const { bag, kit, kitFile, findings } = openKit(plan, options, memory);
  const thresholds = thresholdsWith(
    options.settings?.thresholds ?? new Map(),
    numbersIn(plan.model.thresholds),
  );
  const own = planDeclarations(plan.model);
  const inlineKit =
    plan.model.kit !== undefined && 'section' in plan.model.kit ? plan.model.kit.section : undefined;
  const kitIds =
    kit !== undefined
      ? kitDeclarations(kit.model)
      : inlineKit !== undefined
        ? kitDeclarations(inlineKit)
        : [];
  const declarations = [...own, ...kitIds];
  const analysis: Checkable = {
    ...source,
    kind: 'plan',
    plan,
    ...(kit === undefined ? {} : { kit }),
    ...(kitFile === undefined ? {} : { kitFile }),
    bag,
    day: planDay({ plan: plan.model, bag, thresholds, memory: memory.sky }),
    thresholds,
    declarations,
    memory,
  };
  const reading = [
    ...plan.findings,
    ...findings,
    ...duplicateIds(declarations),
    ...unknownIds(plan.uses, declarations, bag),
  ];
  return withFindings(analysis, reading, options, severitiesIn(plan.model.checks));
}

interface OpenedKit {
  readonly bag: Bag;
  readonly kit?: KitDocument;
  readonly kitFile?: NonNullable<Analysis['kitFile']>;
  readonly findings: readonly Finding[];
}

function openKit(plan: PlanDocument, options: AnalysisOptions, memory: AnalysisMemory): OpenedKit {
  const named = plan.model.kit;
  if (named === undefined) {
    return { bag: packBag(plan.model.self.broken.has('kit') ? 'unread' : 'none'), findings: [] };
  }
  if ('section' in named) return { bag: packBag('ready', named.section), findings: [] };
  const { uri, span, value } = named.scalar;
  const place = { uri, span };
  const path = kitPath(plan.uri, value);
  if ('refused' in path) return refusedKit(place, path.refused);
  const opened = options.open?.(path.uri) ?? { kind: 'missing' };
  const kitFile = { uri: path.uri, place, opened };
  if (opened.kind === 'pending') return { bag: packBag('unread'), kitFile, findings: [] };
  if (opened.kind === 'refused') return { ...refusedKit(place, opened.reason), kitFile };
  if (opened.kind === 'missing') {
    return {
      ...refusedKit(place, 'There is no such file. The path counts from the folder of this plan.'),
      kitFile,
    };
  }
  const known = memory.kit;
  const kit =
    known !== undefined && known.text === opened.text && uriKey(known.uri) === uriKey(opened.uri)
      ? known
      : readDocument(opened.uri, opened.text, kitSection);
  memory.kit = kit;
  const errors = kit.findings.filter(({ severity }) => severity === 'error');
  return {
    bag: packBag('ready', kit.model, kit.model.kit?.value),
    kit,
    kitFile,
    findings: errors.length === 0 ? [] : [brokenKit(place, errors)],
  };
}

function refusedKit(place: Place, reason: string): OpenedKit {
  const finding: Finding = {
    code: 'kit/unreadable',
    severity: 'error',
    ...place,
    message: `The kit cannot be read. ${reason}`,
    related: [],
    facts: {},
  };
  return { bag: packBag('unread'), findings: [finding] };
}

function brokenKit(place: Place, errors: readonly Finding[]): Finding {
  const count = errors.length === 1 ? 'a mistake' : `${errors.length} mistakes`;
  return {
    code: 'kit/has-errors',
    severity: 'warning',
    ...place,
    message: `The kit has ${count}; what depends on it stays empty here.`,
    related: errors.slice(0, 5).map(({ uri, span, message }) => ({ uri, span, message })),
    facts: { errors: errors.length },
  };
}

/** Runs the rules and sets severities: the plan's word goes before the settings', the settings' before the rule's. */
function withFindings(
  analysis: Checkable,
  reading: readonly Finding[],
  { rules, settings, onFault }: AnalysisOptions,
  own: ReadonlyMap<string, Severity | 'off'>,
): Analysis {
  const found: Finding[] = [...reading];
  for (const rule of rules) {
    const report: Report = (place, message, more = {}) => {
      const { uri, span } = place;
      const { related = [], facts = {}, severity = rule.severity } = more;
      found.push({ code: rule.code, severity, uri, span, message, related, facts });
    };
    try {
      rule.check?.(analysis, report);
    } catch (fault) {
      if (onFault === undefined) throw fault;
      onFault(rule.code, fault);
    }
  }
  const findings = found.flatMap((finding): readonly Finding[] => {
    if (finding.uri !== analysis.uri) return [];
    const set = own.get(finding.code) ?? settings?.checks?.get(finding.code);
    if (set === undefined) return [finding];
    return set === 'off' ? [] : [{ ...finding, severity: set }];
  });
  findings.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end || compare(a.code, b.code));
  return { ...analysis, findings };
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function severitiesIn(checks: Dictionary<string, string> | undefined): ReadonlyMap<string, Severity | 'off'> {
  return new Map(
    (checks?.entries ?? []).map(({ key, value }) => [key.value, value.value as Severity | 'off']),
  );
}

/** The numbers of a plan's thresholds: `3`, `1/3`, `120 km/h`; their units are those of the table. */
export function numbersIn(written: Dictionary<string, string> | undefined): ReadonlyMap<string, number> {
  const numbers = new Map<string, number>();
  for (const { key, value } of written?.entries ?? []) {
    const number = numberWritten(value.value);
    if (number !== undefined) numbers.set(key.value, number);
  }
  return numbers;
}

/** The number at the beginning of a threshold's text, a fraction too; undefined when there is none. */
export function numberWritten(text: string): number | undefined {
  const match = /^([+-]?\d{1,9}(?:\.\d{1,9})?)(?: ?\/ ?(\d{1,9}))?(?![\d.]|,\d)/.exec(text.trim());
  return match === null ? undefined : Number(match[1]) / Number(match[2] ?? 1);
}

/** A span as a place in the analysed document. */
export function placeIn(analysis: Checkable, span: Span): Place {
  return { uri: analysis.uri, span };
}
