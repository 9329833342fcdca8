// What a user does in VS Code without a mouse.

const PATIENCE = 15_000;

/** Runs a command by its title, as the palette offers it. */
export async function run(page, title) {
  const input = page.locator('.quick-input-widget input.input');
  await page.keyboard.press('F1');
  await input.waitFor({ timeout: PATIENCE });
  await input.fill(`>${title}`);
  const first = page.locator('.quick-input-list .monaco-list-row').first();
  await first.filter({ hasText: title }).waitFor({ timeout: PATIENCE });
  await page.keyboard.press('Enter');
}

/** Chooses in a list that a command has opened; types what is looked for. */
export async function choose(page, text) {
  const rows = page.locator('.quick-input-list .monaco-list-row');
  await rows.first().waitFor({ timeout: PATIENCE });
  await page.locator('.quick-input-widget input.input').fill(text);
  await rows.filter({ hasText: text }).first().waitFor({ timeout: PATIENCE });
  await page.keyboard.press('Enter');
}

/** Puts the cursor of the first editor somewhere; line and column count from one. */
export async function goTo(page, { line, column }) {
  await page.keyboard.press('Control+1');
  await page.keyboard.press('Control+g');
  await page.locator('.quick-input-widget input.input').fill(`:${line}:${column}`);
  await page.keyboard.press('Enter');
}

export async function useTheme(page, name) {
  await page.keyboard.press('Control+k');
  await page.keyboard.press('Control+t');
  await choose(page, name);
  await page.locator('.quick-input-widget').waitFor({ state: 'hidden', timeout: PATIENCE });
}

/** The frame of the panel whose main heading has a text. */
export async function panelWith(page, heading) {
  return eventually(`a panel with '${heading}'`, async () => {
    for (const frame of page.frames()) {
      const found = await frame
        .locator('h1', { hasText: heading })
        .count()
        .catch(() => 0);
      if (found > 0) return frame;
    }
    return undefined;
  });
}

export async function eventually(what, look) {
  const until = Date.now() + PATIENCE;
  for (;;) {
    const found = await look();
    if (found !== undefined && found !== false) return found;
    if (Date.now() > until) throw new Error(`waited in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
