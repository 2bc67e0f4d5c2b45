import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Body, MakeTime, Observer, SearchAltitude } from 'astronomy-engine';
import { afterEach, expect, test } from 'vitest';
import { dawnKit, dawnPlan } from './support/dawn.ts';
import type { Editor, ShownHint } from './support/editor.ts';
import { printEvidence } from './support/evidence.ts';
import { projectFolder } from './support/requirements.ts';
import { makeWorkspace, type Workspace } from './support/workspace.ts';

const sample = readFileSync(join(projectFolder, 'samples/dawn-to-noon.shootplan.yaml'), 'utf8');
const sampleKit = readFileSync(join(projectFolder, 'samples/kit/field-bag.shootkit.yaml'), 'utf8');

/** The clean sample with another bag, so that no scenario changes the bag of another. */
const sampleWith = (kit: string) => sample.replace('kit/field-bag.shootkit.yaml', `kit/${kit}`);

/** The small outing with its bag written into it. */
const alone = dawnPlan.replace(
  'kit: kit/bag.shootkit.yaml',
  `kit:\n${dawnKit
    .replace('kit: Bag\n', '')
    .replace(/^(?=.)/gm, '  ')
    .trimEnd()}`,
);

/** Two lines that cannot be read. The picture before the word is two UTF-16 units long, and columns count those. */
const crlf = alone
  .replace('plan: Dawn', 'plan: 🌅 Dawn')
  .replace(
    '- id: north-steps\n    at: 54.4301, -2.6102',
    '- { id: north-steps, name: 🌊 steps, at: nowhere }',
  )
  .replace(/\n {4}arrive[\s\S]*/, '\n')
  .replaceAll('\n', '\r\n');

const files = {
  'day.shootplan.yaml': sample,
  'hints.shootplan.yaml': sample,
  'broken.shootplan.yaml': sample,
  'stacks.shootplan.yaml': sample,
  // Ruffled water needs a long time to mirror; calm water does not.
  'effect.shootplan.yaml': sample.replace('kind: lake, state: calm', 'kind: lake, state: rippled'),
  'open.shootplan.yaml': sampleWith('open.shootkit.yaml'),
  'kit/open.shootkit.yaml': sampleKit,
  'names.shootplan.yaml': dawnPlan.replace('bag', 'names'),
  'kit/names.shootkit.yaml': dawnKit,
  'kit/field-bag.shootkit.yaml': sampleKit,
  'keys.shootplan.yaml': alone.replace('strength: 6 stops', 'strength: 6').replace('118°', '300°'),
  'closing.shootplan.yaml': alone.replace('metered: 1/2 s', 'metered: half a fortnight'),
  'layout.shootplan.yaml': alone
    .replace('    at: 54', '    at:   54')
    .replace('iso: 64', 'iso:   64    # base'),
  'windows.shootplan.yaml': crlf,
};

/** A workspace for `testScenarios`: every scenario has files of its own, so that none leans on another. */
export function scenarioWorkspace(): Workspace {
  // Text that is put in at once keeps its own indentation.
  return makeWorkspace({ files, settings: { 'editor.autoIndent': 'none' } });
}

/** What people do in an editor with plans, and what they must see. */
export function testScenarios(editor: () => Editor): void {
  const hints = () => editor().hints();
  const problems = async (file: string) => (await editor().problems()).filter((row) => row.file === file);

  afterEach(() => closeAll(editor()));
  // Hooks of one kind run last first: the evidence is taken before everything is closed.
  printEvidence(editor);

  test('by keyboard alone: F8 to the problem, Ctrl+. for its mend', async () => {
    await editor().openFile('keys.shootplan.yaml');
    await expect
      .poll(() => problems('keys.shootplan.yaml'))
      .toContainEqual(expect.objectContaining({ code: 'filter/ambiguous-strength' }));
    await editor().press('F8');
    await editor().page.locator('.marker-widget').getByText('does not say what it counts').waitFor();
    await editor().quickFix('Write 6 stops');
    await expect.poll(() => editor().text()).toContainEqual(expect.stringContaining('strength: 6 stops'));
    await expect.poll(() => problems('keys.shootplan.yaml')).toEqual([]);
  });

  test('the clean sample shows its moments, its shutter times and its light', async () => {
    const text = files['hints.shootplan.yaml'];
    await editor().openFile('hints.shootplan.yaml');
    await editor().select('start: civil dawn + 6 min');
    await expect.poll(hints).toContainEqual(hint(line(text, 'start: civil dawn'), dawnAt('2027-03-20')));
    // 1/2 s · 2^6 = 32 s, for which a dial says 30 s (ISO 516).
    await editor().select('filters: [nd6]');
    await expect.poll(hints).toContainEqual(hint(line(text, 'filters: [nd6]'), /→ 30 s ± 1\/3 stop/));
    await expect.poll(hints).toContainEqual(hint(line(text, 'facing: 300°'), /sun/));
    const found = await problems('hints.shootplan.yaml');
    expect(found.filter(({ severity }) => severity !== 'info')).toEqual([]);
  });

  test('a hover on a stack of filters shows the exact time and that of the dial', async () => {
    await editor().openFile('stacks.shootplan.yaml');
    const { text } = await editor().hoverAt('[nd6]');
    expect(text).toMatch(/^30 s/);
    expect(text).toMatch(/ s × 2\^6\b/);
    expect(text).toMatch(/\b32 s/);
  });

  test('a broken line has a finding with its code; the hints of everything else stand', async () => {
    const text = files['broken.shootplan.yaml'];
    await editor().openFile('broken.shootplan.yaml');
    await editor().problems();
    await editor().select('filters: [nd6]');
    const shot = [line(text, '- id: mirror'), line(text, 'nearest: 0.8 m')] as const;
    const outside = (shown: readonly ShownHint[]) =>
      shown.filter((one) => one.line < shot[0] || one.line > shot[1]);
    await expect.poll(hints).toContainEqual(hint(line(text, 'filters: [nd6]'), /30 s/));
    const before = await hints();
    const clean = await problems('broken.shootplan.yaml');

    await editor().replace('aperture: f/14', 'aperture: wide open');
    await expect
      .poll(() => problems('broken.shootplan.yaml'))
      .toContainEqual(
        expect.objectContaining({
          severity: 'error',
          code: 'plan/unreadable',
          line: line(text, 'aperture: f/14'),
          column: '        aperture: '.length + 1,
        }),
      );
    await expect.poll(hints).not.toContainEqual(hint(line(text, 'filters: [nd6]'), /30 s/));
    // All but what the arrival after it has to spare: that hangs on the length of this shot.
    const stands = outside(before).filter(({ text: shown }) => !shown.includes('to spare'));
    expect(stands.length).toBeGreaterThan(2);
    expect(await hints()).toEqual(expect.arrayContaining(stands));

    await editor().replace('wide open', 'f/14');
    await expect.poll(() => problems('broken.shootplan.yaml')).toEqual(clean);
    await expect.poll(hints).toEqual(before);
  });

  test('the hours of the day follow its date', async () => {
    const text = files['day.shootplan.yaml'];
    const start = line(text, 'start: civil dawn');
    await editor().openFile('day.shootplan.yaml');
    await editor().select('id: blue');
    await expect.poll(hints).toContainEqual(hint(start, dawnAt('2027-03-20')));
    await editor().replace('date: 2027-03-20', 'date: 2027-06-21');
    await editor().select('id: blue');
    await expect.poll(hints).toContainEqual(hint(start, dawnAt('2027-06-21')));
  });

  test('a plan follows its kit while that is edited in another tab, and when it is saved', async () => {
    const text = files['open.shootplan.yaml'];
    const stack = line(text, 'filters: [nd6]');
    await editor().openFile('open.shootplan.yaml');
    await editor().select('filters: [nd6]');
    await expect.poll(hints).toContainEqual(hint(stack, /→ 30 s/));

    await editor().openFile('kit/open.shootkit.yaml');
    // 1/2 s · 2^7 = 64 s.
    await editor().replace('strength: ND64,', 'strength: ND64, measured: 7 stops,');
    await editor().openFile('open.shootplan.yaml');
    await expect.poll(hints).toContainEqual(hint(stack, /→ 1 min 4 s/));

    await editor().openFile('kit/open.shootkit.yaml');
    // 1/2 s · 2^5 = 16 s, for which a dial says 15 s.
    await editor().replace('measured: 7 stops,', 'measured: 5 stops,');
    await editor().save();
    await editor().run('View: Close Editor');
    await editor().openFile('open.shootplan.yaml');
    await expect.poll(hints).toContainEqual(hint(stack, /→ 15 s/));
  });

  test('between the brackets of filters, the bag is offered with a time for each', async () => {
    await editor().openFile('stacks.shootplan.yaml');
    await editor().replace('filters: [nd6]', 'filters: []');
    await editor().press('ArrowLeft');
    await expect.poll(() => offered(editor())).toContainEqual(expect.stringMatching(/^nd6\b.*\b30 s/));
    const rows = await offered(editor());
    // 1/2 s · 2^3.1 = 4.3 s, and 1/2 s · 2^10.3 = 630 s.
    expect(rows).toContainEqual(expect.stringMatching(/^nd3, .*3\.1 stops.*\b4 s/));
    expect(rows).toContainEqual(expect.stringMatching(/^nd10, .*10\.3 stops.*\b10 min 30 s/));
    await editor().complete('nd6');
    await expect.poll(() => editor().text()).toContainEqual('        filters: [nd6]');
  });

  test('a quick fix brings a shot back into the range of its effect', async () => {
    const text = files['effect.shootplan.yaml'];
    const stack = line(text, 'filters: [nd6]');
    await editor().openFile('effect.shootplan.yaml');
    const outside = expect.objectContaining({ code: 'effect/outside-range' });
    await editor().replace('filters: [nd6]', 'filters: [nd3]');
    // 1/2 s · 2^3.1 = 4.3 s: too short for a mirror.
    await expect.poll(hints).toContainEqual(hint(stack, /→ 4 s/));
    await expect.poll(() => problems('effect.shootplan.yaml')).toContainEqual(outside);
    await editor().select('metered: 1/2 s');
    await editor().press('ArrowRight');
    const [first] = (await editor().quickFixes()).filter((title) => title.includes('nd6'));
    expect(first).toBeDefined();
    await editor().quickFix(first ?? '');
    await expect.poll(() => problems('effect.shootplan.yaml')).not.toContainEqual(outside);
    await expect.poll(hints).not.toContainEqual(hint(stack, /→ 4 s/));
    await expect.poll(hints).toContainEqual(hint(stack, /→ /));
  });

  test('the outline names spots and shots', async () => {
    await editor().openFile('hints.shootplan.yaml');
    await expect
      .poll(() => outline(editor()))
      .toEqual([
        'Dawn to noon on the Hallin reservoirs',
        'North steps',
        'Boathouse in the blue hour',
        'Fell side in the water',
        'Fourth cascade of Skarrow Gill',
        'steps',
      ]);
  });

  test('a filter is renamed in plan and kit together', async () => {
    await editor().openFile('names.shootplan.yaml');
    await expect.poll(hints).toContainEqual(hint(line(dawnPlan, 'filters:'), /30 s/));
    await editor().select('[nd6');
    await editor().press('ArrowRight');
    await editor().rename('six-stops');
    await expect.poll(() => editor().text()).toContainEqual('        filters: [six-stops]');
    await expect.poll(hints).toContainEqual(hint(line(dawnPlan, 'filters:'), /30 s/));
    await editor().openFile('kit/names.shootkit.yaml');
    await expect
      .poll(() => editor().text())
      .toContainEqual(expect.stringContaining('{ id: six-stops, kind:'));
  });

  test('formatting tidies a plan and keeps its comments', async () => {
    await editor().openFile('layout.shootplan.yaml');
    await editor().run('Format Document');
    await expect.poll(() => editor().text()).toContainEqual(expect.stringMatching(/^ {4}at: 54/));
    expect(await editor().text()).toContainEqual(expect.stringMatching(/^ {8}iso: 64 +# base$/));
  });

  test('findings stand at their place in a file with CRLF and names beyond the basic plane', async () => {
    await editor().openFile('windows.shootplan.yaml');
    const lines = crlf.split('\r\n');
    const at = lines.findIndex((text) => text.includes('nowhere'));
    await expect
      .poll(() => problems('windows.shootplan.yaml'))
      .toContainEqual(
        expect.objectContaining({
          code: 'plan/unreadable',
          line: at + 1,
          column: (lines[at] ?? '').indexOf('nowhere') + 1,
        }),
      );
  });

  test('a new file without a name computes once its language is Shoot Plan', async () => {
    await editor().run('File: New Untitled Text File');
    await editor().page.locator('.tab.active[data-resource-name^="Untitled"]').waitFor();
    await editor().chooseLanguage('Shoot Plan');
    await editor().focus();
    await editor().type(alone);
    await expect.poll(hints).toContainEqual(hint(line(alone, 'filters: ['), /→ 30 s/));
  });

  test('the findings of a plan go when it is closed', async () => {
    await editor().openFile('closing.shootplan.yaml');
    await expect.poll(() => problems('closing.shootplan.yaml')).not.toEqual([]);
    await editor().run('View: Close Editor');
    await expect.poll(() => problems('closing.shootplan.yaml')).toEqual([]);
  });
}

/** The line of a text, counted from 1, that is the first to hold something. */
function line(text: string, part: string): number {
  return text.split(/\r?\n/).findIndex((row) => row.includes(part)) + 1;
}

function hint(at: number, text: RegExp) {
  return { line: at, text: expect.stringMatching(text) };
}

/**
 * Six minutes after civil dawn at the sample's first spot, by the local clock, give or take the minute that
 * calculations of refraction and rounding differ by. The dawn is found with astronomy-engine, which the
 * project itself does not use. Europe/London is at UTC in March and an hour ahead in June.
 */
function dawnAt(date: '2027-03-20' | '2027-06-21'): RegExp {
  const midnight = MakeTime(new Date(`${date}T00:00:00Z`));
  const dawn = SearchAltitude(Body.Sun, new Observer(54.4301, -2.6102, 0), +1, midnight, 1, -6);
  if (dawn === null) throw new Error('there is a dawn on every day of these');
  const minutes = dawn.date.getTime() / 60_000 + 6 + (date === '2027-06-21' ? 60 : 0);
  const clock = (shift: number) => new Date((minutes + shift) * 60_000).toISOString().slice(11, 16);
  return new RegExp(`^(${[-1, 0, 1].map(clock).join('|')})`);
}

/** The rows of the list of completions, with what stands beside each: `nd6, 30 s`. */
async function offered(editor: Editor): Promise<string[]> {
  await editor.press('Escape');
  await editor.completions();
  return editor.page
    .locator('.suggest-widget.visible .monaco-list-row')
    .evaluateAll((rows) => rows.map((row) => row.getAttribute('aria-label') ?? ''));
}

/** The names in the outline, from top to bottom. */
async function outline(editor: Editor): Promise<string[]> {
  const header = editor.page.locator('.pane-header', { hasText: /^Outline$/i });
  if ((await header.getAttribute('aria-expanded')) !== 'true') await header.click();
  return editor.page.locator('.outline-pane .monaco-list-row .label-name').allInnerTexts();
}

/** Closes every file and throws away what was changed in it. */
async function closeAll(editor: Editor): Promise<void> {
  const tabs = editor.page.locator('.tabs-container .tab');
  await editor.page.keyboard.press('Escape');
  while ((await tabs.count()) > 0) {
    const count = await tabs.count();
    await editor.run('View: Revert and Close Editor');
    await expect.poll(() => tabs.count()).toBeLessThan(count);
  }
}
