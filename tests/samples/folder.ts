import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Analysis, type AnalysisOptions, analyse, type Opened } from '../../server/analysis.ts';
import { rules } from '../../server/checks/list.ts';

/** Where the samples live, and the URI under which the tests read them. */
const folder = fileURLToPath(new URL('../../samples/', import.meta.url));
export const samplesUri = 'file:///samples/';

export const kitText = sampleText('kit/field-bag.shootkit.yaml');

/** The names of all sample plans in a folder below `samples/`, sorted: `coast.shootplan.yaml`, `conflicts/tide.shootplan.yaml`. */
export function samplePlans(below = ''): readonly string[] {
  return readdirSync(folder + below)
    .filter((name) => name.endsWith('.shootplan.yaml'))
    .sort()
    .map((name) => below + name);
}

export function sampleText(name: string): string {
  return readFileSync(folder + name, 'utf8');
}

/** Opens what stands below `samples/`, and nothing else. */
export function openSample(uri: string): Opened {
  if (!uri.startsWith(samplesUri)) return { kind: 'refused', reason: 'Outside the samples.' };
  try {
    return { kind: 'text', uri, text: sampleText(uri.slice(samplesUri.length)) };
  } catch {
    return { kind: 'missing' };
  }
}

/** Analyses a text as if it stood in the place of a sample, with all rules. */
export function analyseAs(name: string, text: string, options: Partial<AnalysisOptions> = {}): Analysis {
  return analyse({ uri: samplesUri + name, text }, { rules, open: openSample, ...options });
}

export function analyseSample(name: string): Analysis {
  return analyseAs(name, sampleText(name));
}
