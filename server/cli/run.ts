import { parseArgs } from 'node:util';
import { version } from '../../package.json';
import { rules } from '../checks/list.ts';
import { dayJson } from '../features/dayJson.ts';
import { dayReport } from '../features/dayReport.ts';
import type { Severity } from '../text/finding.ts';
import type { Place } from '../text/span.ts';
import { type Analysed, analyseFile } from './analyse.ts';
import { anyFrom, checkJson, checkText } from './check.ts';
import { help } from './help.ts';
import { CannotRun, filesOf, nameOf, type Unread } from './inputs.ts';
import type { Output } from './output.ts';
import { pathOf, Regions } from './placed.ts';
import { sarif } from './sarif.ts';

/** Exit codes: all well; findings; could not run. */
export type ExitCode = 0 | 1 | 2;

const options = {
  format: { type: 'string' },
  severity: { type: 'string' },
  from: { type: 'string' },
  'allow-empty': { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
} as const;

type Values = ReturnType<typeof read>['values'];

/** Runs the command line. What keeps it from running is said on the error output. */
export async function run(commandLine: readonly string[], output: Output): Promise<ExitCode> {
  try {
    return await dispatch(commandLine, output);
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error;
    await output.error(`shootplan: ${error.message}\n`);
    return 2;
  }
}

async function dispatch(commandLine: readonly string[], output: Output): Promise<ExitCode> {
  const { values, positionals } = read(commandLine);
  const [command, ...rest] = positionals;
  if (values.version === true) {
    await output.out(`shootplan ${version} (time zone data ${process.versions.tz ?? 'unknown'})\n`);
    return 0;
  }
  if (values.help === true) {
    await output.out(help);
    return 0;
  }
  switch (command) {
    case 'check':
      return check(rest, values, output);
    case 'day':
      return day(rest, values, output);
    case 'explain':
      return explain(rest, output);
    case undefined:
      throw new CannotRun('say what to do: check, day or explain. --help tells more.');
    default:
      throw new CannotRun(`there is no command ${command}. There are check, day and explain.`);
  }
}

function read(commandLine: readonly string[]) {
  try {
    return parseArgs({ args: [...commandLine], options, allowPositionals: true });
  } catch (error) {
    throw new CannotRun(error instanceof Error ? error.message : String(error));
  }
}

async function check(names: readonly string[], values: Values, output: Output): Promise<ExitCode> {
  const format = choice('--format', values.format ?? 'text', ['text', 'json', 'sarif']);
  const severity: Severity = choice('--severity', values.severity ?? 'warning', ['error', 'warning', 'hint']);
  const allowEmpty = values['allow-empty'] === true;
  if (names.length === 0 && !allowEmpty) throw new CannotRun('name the files to check, or a folder.');
  const { inputs, unread } = await analyseAll(await filesOf(names, { allowEmpty }), values.from);
  for (const { message } of unread) await output.error(`shootplan: ${message}\n`);
  if (format === 'json') await output.out(checkJson(inputs, unread));
  else if (format === 'sarif') await output.out(sarif(inputs, unread, version));
  else if (inputs.length > 0 || unread.length === 0) await output.out(checkText(inputs, output));
  if (unread.length > 0) return 2;
  return anyFrom(inputs, severity) ? 1 : 0;
}

/** Analyses what can be read: one bad file keeps none of the others from being checked. */
async function analyseAll(files: readonly string[], from: string | undefined) {
  const inputs: Analysed[] = [];
  const unread: Unread[] = [];
  for (const file of files) {
    try {
      inputs.push(await analyseFile(file, from));
    } catch (error) {
      if (!(error instanceof CannotRun)) throw error;
      unread.push({ file, message: error.message });
    }
  }
  return { inputs, unread };
}

async function day(names: readonly string[], values: Values, output: Output): Promise<ExitCode> {
  const format = choice('--format', values.format ?? 'text', ['text', 'json']);
  const [file, ...more] = names;
  if (file === undefined || more.length > 0) throw new CannotRun('day takes one plan.');
  const input = await analyseFile(file, values.from);
  const { analysis } = input;
  if (analysis.kind === 'kit') throw new CannotRun(`${nameOf(file)}: is a kit; a plan has a day.`);
  await output.out(format === 'json' ? dayAsJson(input) : dayReport(analysis));
  return 0;
}

/** With lines and columns as `check` counts them; a finding in the kit names its file. */
function dayAsJson(input: Analysed): string {
  const { analysis } = input;
  const regions = new Regions(input);
  const placed = (place: Place) => ({
    ...(place.uri === analysis.uri ? {} : { path: pathOf(place.uri, input) }),
    ...regions.of(place),
  });
  return `${JSON.stringify(dayJson(analysis, placed), null, 2)}\n`;
}

async function explain(names: readonly string[], output: Output): Promise<ExitCode> {
  const texts = names.map((name) => {
    const rule = rules.find(({ code }) => code === name);
    if (rule === undefined) throw new CannotRun(`there is no finding ${name}.`);
    return `${rule.code} (${rule.severity})\n${rule.doc}\n`;
  });
  if (texts.length === 0) throw new CannotRun('name the code of a finding, such as time/late-arrival.');
  await output.out(texts.join('\n'));
  return 0;
}

function choice<const T extends string>(option: string, given: string, choices: readonly T[]): T {
  const chosen = choices.find((one) => one === given);
  if (chosen === undefined) throw new CannotRun(`${option} is one of ${choices.join(', ')}, not ${given}.`);
  return chosen;
}
