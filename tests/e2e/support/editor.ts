/**
 * A driver for the real editors, the same for web and desktop: it does what a person does with mouse and
 * keyboard, and reads what the page shows. Readers return what is there now; poll them:
 *
 *     const editor = await openWebEditor(workspace);          // or openDesktopEditor(workspace, { trusted })
 *     await editor.openFile('dawn.shootplan.yaml');           // 'kit/bag.shootkit.yaml' opens the folder too
 *     await expect.poll(() => editor.hints()).toContainEqual({ line: 8, text: '32 s' });
 *     await editor.replace('metered: 1/2 s', 'metered: 1/2 fortnight');
 *     await expect.poll(() => editor.problems()).toMatchObject([{ severity: 'error', line: 8 }]);
 *     const hover = await editor.hoverAt('1/2 s');            // { text, images, links }
 *     await editor.select('aperture: '), await editor.press('End'), await editor.type('f/');
 *     await editor.completions();                             // labels; leaves the list open
 *     await editor.complete('mirror');                        // takes one
 *     await editor.select('fortnight');
 *     await editor.quickFixes();                              // titles
 *     await editor.quickFix('Write 1/2 s');                   // applies one
 *     await editor.run('Format Document');                    // any command of the palette
 *     await editor.save(), await editor.undo();
 *     await editor.setTheme('dark'), await editor.screenshot('dark.png');
 *     await editor.close();
 *
 * `page` is there for what is missing. Every wait has a condition; nothing sleeps. Text to look for
 * (`select`, `replace`, `hoverAt`) is found from the top of the file: choose one that is unique. Hints of an
 * LSP `hint` severity are not listed in the panel of problems by the editor: use `marks('hint')` for those.
 */
import type { Locator, Page } from 'playwright-core';

/** An inlay hint: the number of its line, counted from 1, and its text. */
export interface ShownHint {
  readonly line: number;
  readonly text: string;
}

/** A row of the panel of problems. Line and column are counted from 1. */
export interface ShownProblem {
  readonly file: string;
  readonly severity: string;
  readonly message: string;
  readonly code: string;
  readonly line: number;
  readonly column: number;
}

export interface ShownHover {
  readonly text: string;
  /** The sources of the pictures that were drawn: a picture that failed to load is not among them. */
  readonly images: readonly string[];
  /** Where its links lead. */
  readonly links: readonly string[];
}

/** Where an editor draws the lines of the file in front. */
const activeEditor = '.editor-group-container.active .editor-instance .monaco-editor[role="code"]';

export class Editor {
  private constructor(
    readonly page: Page,
    private readonly ends: () => Promise<void>,
    /** The folder of the log files that the editor writes, where there is one. */
    readonly logs?: string,
  ) {}

  /** Waits until the workbench shows the workspace. */
  static async open(page: Page, url: string, ends: () => Promise<void>, logs?: string): Promise<Editor> {
    const editor = new Editor(page, ends, logs);
    try {
      await page.goto(url);
      await editor.explorer.first().waitFor();
    } catch (error) {
      await ends();
      throw error;
    }
    return editor;
  }

  async close(): Promise<void> {
    await this.ends();
  }

  /** Opens a file of the workspace from the explorer and waits until its text is drawn. */
  async openFile(name: string): Promise<void> {
    const steps = name.split('/');
    for (const [index, step] of steps.entries()) {
      const row = this.explorer
        .and(this.page.locator(`[aria-level="${index + 1}"]`))
        .filter({ has: this.page.locator('.label-name').getByText(step, { exact: true }) });
      await row.waitFor();
      if (index === steps.length - 1) await row.dblclick();
      else if ((await row.getAttribute('aria-expanded')) !== 'true') await row.click();
    }
    await this.page.locator(`${activeEditor}[data-uri$="/${name}"] .view-line`).first().waitFor();
    await this.focus();
  }

  /** The lines on screen as they are drawn, hints among the text, in order. */
  async lines(): Promise<string[]> {
    return (await this.drawnLines()).map(({ parts }) => parts.map(({ text }) => text).join(''));
  }

  /** The text of the lines on screen, without hints, in order. */
  async text(): Promise<string[]> {
    const lines = await this.drawnLines();
    return lines.map(({ parts }) => parts.map(({ text, hint }) => (hint ? '' : text)).join(''));
  }

  /** The inlay hints on screen, from top to bottom; hints that touch are one. */
  async hints(): Promise<ShownHint[]> {
    const found: ShownHint[] = [];
    for (const { line, parts } of await this.drawnLines()) {
      let text = '';
      for (const part of [...parts, { text: '', hint: false }]) {
        if (part.hint) text += part.text;
        else {
          if (text.trim() !== '') found.push({ line, text: text.trim() });
          text = '';
        }
      }
    }
    return found;
  }

  /** The rows of the panel of problems, which is opened if need be. */
  async problems(): Promise<ShownProblem[]> {
    const panel = this.page.locator('.markers-panel');
    if (!(await panel.isVisible())) {
      await this.page.keyboard.press('Control+Shift+m');
      await panel.waitFor();
      await this.focus();
    }
    return panel.evaluate((element) => {
      const found = [];
      let file = '';
      for (const row of [...element.querySelectorAll('.monaco-list-row')].sort(
        (one, other) => Number(one.getAttribute('data-index')) - Number(other.getAttribute('data-index')),
      )) {
        const label = row.getAttribute('aria-label') ?? '';
        const part = (selector: string) => row.querySelector(selector)?.textContent ?? '';
        const place = /at line (\d+) and character (\d+)/.exec(label);
        if (row.getAttribute('aria-level') === '1') file = part('.label-name');
        else if (row.getAttribute('aria-level') === '2' && place) {
          found.push({
            file,
            severity: (/^\w+/.exec(label)?.[0] ?? '').toLowerCase(),
            message: part('.marker-message'),
            code: part('.marker-code').replace(/[()]/g, ''),
            line: Number(place[1]),
            column: Number(place[2]),
          });
        }
      }
      return found;
    });
  }

  /** How many stretches of text on screen are underlined as this. */
  async marks(severity: 'error' | 'warning' | 'info' | 'hint'): Promise<number> {
    return this.page.locator(`${activeEditor} .cdr.squiggly-${severity}`).count();
  }

  /** Puts the mouse on a text and waits for its hover to be filled. */
  async hoverAt(text: string): Promise<ShownHover> {
    await this.select(text);
    await this.press('ArrowLeft');
    const spot = await this.placeOf(text);
    const hover = this.page.locator('.monaco-hover:not(.hidden):has(.hover-row:not(.loading))').first();
    await this.page.mouse.move(0, 0);
    await hover.waitFor({ state: 'hidden' });
    await this.page.mouse.move(spot.x - 3, spot.y);
    await this.page.mouse.move(spot.x, spot.y);
    await hover.waitFor();
    await hover.getByText('Loading...', { exact: true }).waitFor({ state: 'detached' });
    const drawn = await hover.evaluate(async (element) => {
      const images = [...element.querySelectorAll('img')];
      await Promise.allSettled(images.map((image) => image.decode()));
      const links = [...element.querySelectorAll('a[data-href]')];
      return {
        images: images.filter(({ naturalWidth }) => naturalWidth > 0).map(({ src }) => src),
        links: links.map((link) => link.getAttribute('data-href') ?? ''),
      };
    });
    const rows = await hover.locator('.hover-row').allInnerTexts();
    return { text: rows.join('\n').replaceAll('\u00a0', ' ').trim(), ...drawn };
  }

  /** Selects the first occurrence of a text in the file and brings it on screen. */
  async select(text: string): Promise<void> {
    await this.focus();
    await this.page.keyboard.press('Escape');
    await this.page.keyboard.press('Control+Home');
    await this.page.keyboard.press('Control+f');
    const finder = this.page.locator(`${activeEditor} .find-widget.visible`);
    const input = finder.locator('.find-part textarea, .find-part input').first();
    const count = finder.locator('.matchesCount');
    await input.fill('');
    await count.getByText('No results').waitFor();
    await input.fill(text);
    // "1 of 3": the search has run, and the first match is selected. "? of 3": none is yet.
    await count.getByText(/ of \d+/).waitFor();
    if (!(await count.textContent())?.startsWith('1 of ')) await input.press('Enter');
    await count.getByText(/^1 of \d+/).waitFor();
    await this.page.keyboard.press('Escape');
    await finder.waitFor({ state: 'hidden' });
    await this.page.locator(`${activeEditor}.focused`).waitFor();
  }

  /** Replaces the first occurrence of a text in the file. */
  async replace(text: string, replacement: string): Promise<void> {
    await this.select(text);
    await this.type(replacement);
  }

  /** Types where the cursor is, over the selection; in one go, as a paste would. An empty text deletes. */
  async type(text: string): Promise<void> {
    if (text === '') await this.page.keyboard.press('Delete');
    else await this.page.keyboard.insertText(text);
  }

  /** Types key by key, so that the editor reacts to every one. */
  async typeKeys(text: string): Promise<void> {
    await this.page.keyboard.type(text);
  }

  async press(key: string): Promise<void> {
    await this.page.keyboard.press(key);
  }

  async undo(): Promise<void> {
    await this.page.keyboard.press('Control+z');
  }

  /** Saves the file in front and waits until it is saved. */
  async save(): Promise<void> {
    await this.page.keyboard.press('Control+s');
    await this.page.locator('.editor-group-container.active .tab.active:not(.dirty)').waitFor();
  }

  /** Asks for completion at the cursor; the labels offered on screen. The list stays open. */
  async completions(): Promise<string[]> {
    await this.page.keyboard.press('Control+Space');
    await this.suggestions.first().waitFor();
    return this.suggestions.locator('.label-name').allInnerTexts();
  }

  /** Takes a completion of the open list. */
  async complete(label: string): Promise<void> {
    await this.suggestions
      .filter({ has: this.page.getByText(label, { exact: true }) })
      .first()
      .click();
    await this.suggestions.first().waitFor({ state: 'hidden' });
  }

  /** The titles of the code actions at the cursor. */
  async quickFixes(): Promise<string[]> {
    await this.openActions();
    const titles = await this.actions.locator('.title').allInnerTexts();
    await this.page.keyboard.press('Escape');
    await this.actions.first().waitFor({ state: 'hidden' });
    return titles;
  }

  /** Applies the code action of this title at the cursor. */
  async quickFix(title: string): Promise<void> {
    await this.openActions();
    // By keyboard: the list keeps a shield against clicks for a while.
    const titles = await this.actions.locator('.title').allInnerTexts();
    const steps = titles.indexOf(title);
    if (steps < 0) throw new Error(`"${title}" is not among the quick fixes: ${titles.join(', ')}`);
    for (let step = 0; step < steps; step += 1) await this.page.keyboard.press('ArrowDown');
    const chosen = this.page.locator('.action-widget .monaco-list-row.action.focused');
    await chosen.filter({ has: this.page.getByText(title, { exact: true }) }).waitFor();
    await this.page.keyboard.press('Enter');
    await this.actions.first().waitFor({ state: 'hidden' });
  }

  /** Gives the name at the cursor another spelling wherever it is used. */
  async rename(name: string): Promise<void> {
    const input = this.page.locator('.rename-box input');
    await this.page.keyboard.press('F2');
    await input.waitFor();
    await input.fill(name);
    await input.press('Enter');
    await input.waitFor({ state: 'hidden' });
  }

  /** Says in which language the file in front is written. */
  async chooseLanguage(name: string): Promise<void> {
    await this.run('Change Language Mode');
    await this.page.locator('.quick-input-widget input[placeholder="Select Language Mode"]').fill(name);
    await this.quickRows
      .filter({ has: this.page.getByText(name, { exact: true }) })
      .first()
      .click();
    await this.quickInput.waitFor({ state: 'hidden' });
  }

  /** Runs a command of the palette by its full title. */
  async run(title: string): Promise<void> {
    await this.page.keyboard.press('F1');
    await this.quickInput.fill(`>${title}`);
    await this.quickRows
      .filter({ has: this.page.getByText(title, { exact: true }) })
      .first()
      .click();
  }

  async setTheme(theme: 'light' | 'dark'): Promise<void> {
    await this.run('Preferences: Color Theme');
    await this.quickInput.fill(theme === 'light' ? 'Light Modern' : 'Dark Modern');
    await this.quickRows.first().waitFor();
    await this.page.keyboard.press('Enter');
    await this.quickInput.waitFor({ state: 'hidden' });
    await this.page.locator(`.monaco-workbench.${theme === 'light' ? 'vs' : 'vs-dark'}`).waitFor();
  }

  /** Whether the workspace is not trusted. */
  async isRestricted(): Promise<boolean> {
    return this.page.locator('.statusbar-item[aria-label*="Restricted Mode"]').isVisible();
  }

  async screenshot(path: string): Promise<void> {
    await this.page.screenshot({ path });
  }

  /** Puts the keyboard into the file in front. */
  async focus(): Promise<void> {
    await this.page
      .locator(`${activeEditor} textarea.inputarea, ${activeEditor} .native-edit-context`)
      .first()
      .focus();
    await this.page.locator(`${activeEditor}.focused`).waitFor();
  }

  private get explorer(): Locator {
    return this.page.locator('.explorer-folders-view .monaco-list-row');
  }

  private get suggestions(): Locator {
    return this.page.locator('.suggest-widget.visible .monaco-list-row');
  }

  private get actions(): Locator {
    return this.page.locator('.action-widget .monaco-list-row.action');
  }

  private get quickInput(): Locator {
    return this.page.locator('.quick-input-widget input[type="text"]');
  }

  private get quickRows(): Locator {
    return this.page.locator('.quick-input-widget .monaco-list-row');
  }

  /** The editor drops a question for code actions when it asks by itself at the same moment: then, once more. */
  private async openActions(): Promise<void> {
    const first = this.actions.first();
    for (let attempt = 0; attempt < 10 && !(await first.isVisible()); attempt += 1) {
      await this.page.keyboard.press('Control+.');
      await first.waitFor({ timeout: 5_000 }).catch(() => {});
    }
    if (!(await first.isVisible())) throw new Error('No code actions are offered here');
  }

  /** The middle of a text on screen, in pixels. */
  private async placeOf(text: string): Promise<{ x: number; y: number }> {
    const place = await this.page.locator(`${activeEditor} .view-lines`).evaluate((lines, wanted) => {
      for (const line of lines.querySelectorAll('.view-line')) {
        // The text of the file: hints stand in spans of their own and are left out.
        const nodes: Text[] = [];
        const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
        while (walker.nextNode()) {
          if (!walker.currentNode.parentElement?.className.includes('dyn-rule'))
            nodes.push(walker.currentNode as Text);
        }
        const middle =
          nodes
            .map(({ data }) => data)
            .join('')
            .replaceAll('\u00a0', ' ')
            .indexOf(wanted) + Math.floor(wanted.length / 2);
        if (middle < Math.floor(wanted.length / 2)) continue;
        let before = 0;
        for (const node of nodes) {
          if (middle < before + node.length) {
            const range = document.createRange();
            range.setStart(node, middle - before);
            range.setEnd(node, middle - before + 1);
            const { left, top, width, height } = range.getBoundingClientRect();
            return { x: left + width / 2, y: top + height / 2 };
          }
          before += node.length;
        }
      }
      return undefined;
    }, text);
    if (place === undefined) throw new Error(`"${text}" is not on screen`);
    return place;
  }

  /** Lines on screen with their numbers, each as stretches of text of the file and of hints. */
  private async drawnLines(): Promise<{ line: number; parts: { text: string; hint: boolean }[] }[]> {
    return this.page.locator(activeEditor).evaluate((editor) => {
      const top = (element: Element) => Math.round(element.getBoundingClientRect().top);
      const numbers = new Map(
        [...editor.querySelectorAll('.margin-view-overlays .line-numbers')].map((element) => [
          top(element),
          Number(element.textContent),
        ]),
      );
      return [...editor.querySelectorAll('.view-lines .view-line')]
        .map((element) => ({
          line: numbers.get(top(element)) ?? 0,
          parts: [...element.querySelectorAll(':scope > span > span')].map((part) => ({
            text: (part.textContent ?? '').replaceAll('\u00a0', ' '),
            // What the editor draws into a line without it being in the file.
            hint: part.className.includes('dyn-rule'),
          })),
        }))
        .sort((one, other) => one.line - other.line);
    });
  }
}
